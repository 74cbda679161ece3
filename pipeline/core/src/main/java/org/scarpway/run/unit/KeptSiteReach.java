package org.scarpway.run.unit;

import java.util.function.Supplier;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.SiteFigures.ReachedArea;
import org.scarpway.site.SiteReach;
import org.scarpway.stage.Memory;

/**
 * The reach figures of a site, kept between runs by what they depend on. That leaves out the name
 * of the question and its bands, so that a site comparison asks anew only what changed. Figures are
 * kept only of a question whose recalculated trips broke no rule.
 */
final class KeptSiteReach {
  private final Memory memory;
  private final String key;
  private final String question;

  /**
   * @param memory of the engine, whose store keeps the figures
   * @param key over everything that the figures depend on
   * @param question its name, which the figures bear
   */
  KeptSiteReach(Memory memory, StageKey key, String question) {
    this.memory = memory;
    this.key = key.hex();
    this.question = question;
  }

  /** Returns the figures, computed and kept if they are not kept yet. */
  SiteReach or(Supplier<SiteReach> compute) {
    SiteReach before =
        memory
            .store()
            .ofOthers()
            .read(key, in -> StoredResult.of(in.readAllBytes(), SiteReach.class));
    if (before != null) {
      return named(before, question);
    }
    SiteReach now = compute.get();
    byte[] bytes = StoredResult.bytes(named(now, ""));
    memory.store().ofOthers().write(key, bytes.length, out -> out.write(bytes));
    return now;
  }

  private static SiteReach named(SiteReach s, String name) {
    ReachedArea area = new ReachedArea(name, s.area().surelyM2(), s.area().possiblyM2());
    return new SiteReach(area, s.reached(), s.narrowestM(), s.lostPct());
  }
}
