package org.scarpway.run.unit;

import java.util.List;
import java.util.function.Supplier;
import org.scarpway.audit.Finding;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.stage.Memory;

/**
 * The times to turn back along a corridor by the rules of one question, kept between runs by what
 * they depend on. That leaves out the question's name, stay, bands and number of trips driven
 * again, so that a sheet follows only what changed of its rules. Times are kept only where no way
 * home that was driven again broke a rule.
 */
final class KeptHomeAlong {
  private final Memory memory;
  private final String key;
  private final ReachRequest question;

  /** What is kept. */
  record Kept(List<Consumable> limited, List<Turn> at, List<Finding> drivenAgain) {}

  /**
   * @param memory of the engine, whose store keeps the times
   * @param key over everything that the times depend on
   * @param question which the times bear
   */
  KeptHomeAlong(Memory memory, StageKey key, ReachRequest question) {
    this.memory = memory;
    this.key = key.hex();
    this.question = question;
  }

  /** Returns the times, computed and kept if they are not kept yet. */
  HomeAlong or(Supplier<HomeAlong> compute) {
    Kept before =
        memory.store().ofOthers().read(key, in -> StoredResult.of(in.readAllBytes(), Kept.class));
    if (before != null) {
      return new HomeAlong(question, before.limited(), before.at(), before.drivenAgain());
    }
    HomeAlong now = compute.get();
    if (now.drivenAgain().stream().allMatch(Finding::holds)) {
      byte[] bytes = StoredResult.bytes(new Kept(now.limited(), now.at(), now.drivenAgain()));
      memory.store().ofOthers().write(key, bytes.length, out -> out.write(bytes));
    }
    return now;
  }
}
