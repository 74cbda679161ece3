package org.scarpway.run.unit;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.scarpway.config.Job;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.FileTree;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.SiteComparison;
import org.scarpway.site.SiteFigures;
import org.scarpway.site.SiteGround;
import org.scarpway.site.SiteInput;
import org.scarpway.site.SiteParams;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Reason;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.StageFailure;
import org.scarpway.terrain.DrawnHeights;

/**
 * Evaluates the candidates on realisations of the height error: terrain, hazard, mobility and every
 * reach question are computed as if each realisation were the elevation model. The effect of the
 * height error on a comparison cannot be derived from the slope error alone, since a gap may open
 * or close.
 *
 * <p>The figures of every realisation are kept between runs, so that after a break, with other
 * weights or with more realisations none is computed again.
 */
final class SiteRealisations {
  /** Raised when a change of the code changes a realisation or its figures. */
  private static final int VERSION = 1;

  private final OpenJob job;
  private final SiteParams params;
  private final Measured measured;
  private final Job.MonteCarlo asked;
  private DrawnHeights heights;

  /**
   * Keys on the ground as measured.
   *
   * @param figures of the candidates' figures
   * @param mobility of a vehicle's mobility
   */
  record Measured(StageKey figures, StageKey hazard, Function<String, StageKey> mobility) {}

  /** Figures as kept. */
  record Kept(List<StoredFigures> candidates) {}

  SiteRealisations(OpenJob job, SiteParams params, Measured measured) {
    this.job = job;
    this.params = params;
    this.measured = measured;
    this.asked = job.job().sites().monteCarlo();
  }

  /**
   * Returns the figures of all candidates in the job's order, for each realisation.
   *
   * @param dir folder in which each realisation has a folder while it is computed
   */
  List<List<SiteFigures>> measure(Path dir) {
    Progress progress = job.progress();
    List<List<SiteFigures>> all = new ArrayList<>();
    progress.begin("sites on realisations of the ground", asked.realisations());
    while (all.size() < asked.realisations()) {
      all.add(figures(all.size(), dir.resolve("realisation")));
      progress.advance(1);
    }
    progress.end();
    return all;
  }

  private List<SiteFigures> figures(int number, Path dir) {
    ContentStore store = job.workers().memory().store().ofOthers();
    String key = drawn(measured.figures(), number).hex();
    Kept kept = store.read(key, in -> StoredResult.of(in.readAllBytes(), Kept.class));
    if (kept == null) {
      kept = new Kept(compute(number, dir).stream().map(StoredFigures::of).toList());
      byte[] bytes = StoredResult.bytes(kept);
      store.write(key, bytes.length, out -> out.write(bytes));
    }
    return kept.candidates().stream().map(StoredFigures::figures).toList();
  }

  /** Returns the key on a realisation of what has this key on the ground as measured. */
  private StageKey drawn(StageKey onMeasured, int number) {
    return StageKey.of("realisation", VERSION)
        .add(onMeasured)
        .add("seed", asked.seed())
        .add("number", number)
        .build();
  }

  private List<SiteFigures> compute(int number, Path dir) {
    heights = heights == null ? heights() : heights;
    DrawnGround.Keys keys =
        new DrawnGround.Keys() {
          @Override
          public StageKey hazard() {
            return drawn(measured.hazard(), number);
          }

          @Override
          public StageKey mobility(String vehicle) {
            return drawn(measured.mobility().apply(vehicle), number);
          }
        };
    DrawnGround ground = new DrawnGround(job.on(heights.realisation(number)), keys, dir);
    List<SiteInput> candidates = ground.candidates();
    List<SiteFigures> figures;
    try (SiteGround layers = ground.sites()) {
      figures = candidates.stream().map(c -> SiteComparison.measure(params, layers, c)).toList();
    }
    try {
      FileTree.remove(dir);
    } catch (IOException e) {
      throw new StageFailure("cannot remove " + dir + ": " + Reason.of(e), e);
    }
    return figures;
  }

  private DrawnHeights heights() {
    Memory memory = job.workers().memory();
    Double lengthM = job.job().dem().correlationLengthM();
    double bytes = DrawnHeights.bytes(job.spec(), lengthM);
    ScratchFile file = job.strips().inMemory() ? memory.scratch((long) bytes) : memory.scratch();
    return new DrawnHeights(
        "sites.monte_carlo",
        job.heights(),
        job.job().dem().verticalSigmaM(),
        lengthM,
        asked.seed(),
        file,
        job.workers());
  }
}
