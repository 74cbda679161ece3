package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.config.LightSettings;
import org.scarpway.dem.Dem;
import org.scarpway.dem.DemReader;
import org.scarpway.dem.DemRequest;
import org.scarpway.dem.DemRows;
import org.scarpway.dem.HeightRows;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.light.EarthSky;
import org.scarpway.light.FarGround;
import org.scarpway.light.HorizonSweep;
import org.scarpway.light.Horizons;
import org.scarpway.light.MarsSky;
import org.scarpway.light.MoonSky;
import org.scarpway.light.ProductCells;
import org.scarpway.light.Sky;
import org.scarpway.light.SweepGround;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.store.StageKey;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.UserError;

/** What light and contact have in common: heights for sweeps, the sky, and the horizons. */
public final class LightGround {
  /** Height step (m) between near and far ground above which they do not belong together. */
  private static final double MOST_STEP_M = 20;

  /** Cells of the near ground that are compared with the far ground, in each direction. */
  private static final int COMPARED = 60;

  private final OpenJob job;
  private final LightSettings settings;
  private final ProductCells products;
  private final SoftCached<SweepGround> ground;
  private final SoftCached<FarGround> far;
  private final SoftCached<Swept> horizons;

  private record Swept(List<Horizons> byEye) {}

  LightGround(OpenJob job) {
    this.job = job;
    this.settings = job.job().light();
    this.products = ProductCells.of(job.spec(), block(settings, job.spec()));
    this.ground = new SoftCached<>(this::copyHeights);
    this.far = new SoftCached<>(this::readFar);
    this.horizons = new SoftCached<>(this::sweep);
  }

  /** Returns one line for each reason why light cannot be told on the ground of a job. */
  public static List<String> mistakes(OpenJob open) {
    LightSettings light = open.job().light();
    List<String> mistakes = new ArrayList<>();
    if (light == null) {
      return mistakes;
    }
    if (!WorldMap.of(open.spec()).known()) {
      mistakes.add(
          UserError.of(
                  light.where(),
                  "light on a map whose longitudes and latitudes are not known",
                  "an elevation model tied to its body",
                  "give it a reference system, or remove light")
              .getMessage());
    }
    if (light.far() != null && mistakes.isEmpty()) {
      try {
        FarMap.require(open.spec(), DemReader.spec(farRequest(open.job()), open.io()), light.far());
      } catch (UserError e) {
        mistakes.add(e.getMessage());
      }
    }
    return mistakes;
  }

  /** Everything but the terrain that a horizon depends on. */
  StageKey.Builder horizonKey(StageKey.Builder key) {
    key.add("azimuths", settings.azimuths())
        .add("block", products.block())
        .add("bending", settings.bending())
        .add("body", job.job().dem().body());
    key.add("far", settings.far() == null ? "none" : job.digests().of(settings.far()));
    key.add("from", settings.from()).add("to", settings.to()).add("step", settings.step());
    key.add("sky", settings.table() == null ? "series" : job.digests().of(settings.tableFile()));
    return key;
  }

  private static int block(LightSettings light, GridSpec spec) {
    return (int) Math.max(1, Math.rint(light.cellM() / spec.cellM()));
  }

  ProductCells products() {
    return products;
  }

  GridSpec productSpec() {
    return products.spec();
  }

  /** Mean radius of the body (m). */
  double radiusM() {
    Body body = job.job().dem().body();
    return (2 * body.semiMajorM() + body.semiMinorM()) / 3;
  }

  /**
   * Radius (m) of the sphere over which rays are straight that bend by a share of its curvature.
   */
  double radiusM(double bending) {
    return radiusM() / (1 - bending);
  }

  LonLat map() {
    WorldMap world = WorldMap.of(job.spec());
    return world.known() ? world::toLonLat : LonLat.NONE;
  }

  Sky sky() {
    if (settings.table() != null) {
      return settings.table();
    }
    return switch (job.job().dem().body().name()) {
      case "moon" -> new MoonSky();
      case "mars" -> new MarsSky();
      default -> new EarthSky();
    };
  }

  SweepGround ground() {
    return ground.get();
  }

  /** True if the height is known where the eye of a product cell is. */
  boolean known(int productCell) {
    return ground().knows(products.eyeRow(productCell), products.eyeCol(productCell));
  }

  FarGround far() {
    return settings.far() == null ? null : far.get();
  }

  /** Horizons of what shall be lit. */
  Horizons ofPanels() {
    return horizons.get().byEye.get(0);
  }

  /** Horizons of antennas, where the job asks for contact with the Earth. */
  Horizons ofAntennas() {
    return horizons.get().byEye.get(1);
  }

  private Swept sweep() {
    boolean earth = job.job().contact() != null && job.job().contact().earthMarginDeg() != null;
    double[] eyes =
        earth
            ? new double[] {settings.panelM(), job.job().contact().antennaM()}
            : new double[] {settings.panelM()};
    HorizonSweep sweep =
        new HorizonSweep(
            ground(), far(), radiusM(settings.bending()), products, eyes, settings.azimuths());
    double bytes = 2.0 * eyes.length * settings.azimuths() * productSpec().cells();
    job.progress().begin("horizons", (long) job.spec().cells() * settings.azimuths());
    List<Horizons> all = sweep.horizons(scratch(bytes), job.workers(), job.progress());
    job.progress().end();
    return new Swept(all);
  }

  private ScratchFile scratch(double bytes) {
    Memory memory = job.workers().memory();
    return !job.strips().inMemory() || Memory.isLarge(bytes) ? memory.scratch() : null;
  }

  private SweepGround copyHeights() {
    return SweepGround.of(job.heights(), far(), scratch(2.0 * Float.BYTES * job.spec().cells()));
  }

  private static DemRequest farRequest(Job job) {
    DemRequest d = job.dem();
    return new DemRequest(
        List.of(job.light().far()),
        d.body(),
        null,
        null,
        DemRequest.VoidRule.NO_GO,
        0,
        null,
        null,
        d.maxCells(),
        d.assumeLocalMetres());
  }

  private FarGround readFar() {
    Dem dem = DemRows.open(farRequest(job.job()), job.io(), job.workers()).whole(Progress.NONE);
    HeightRows near = job.heights();
    FloatGrid onMap = FarMap.drawn(job.spec(), near, dem.heightM(), radiusM(), job.workers());
    double lifted = dem.datumM() - job.dem().get().datumM();
    double stepM = medianStepM(new FarGround(onMap, lifted));
    if (Math.abs(stepM) > MOST_STEP_M) {
      throw UserError.of(
          settings.far().toString(),
          Digits.text("dem_far lies %s m above the ground of dem.source in the median", stepM),
          "heights that agree within " + MOST_STEP_M + " m",
          "check units and height references of both");
    }
    return new FarGround(onMap, lifted - stepM);
  }

  /** Median of far less near heights where both are known; 0 if they share no ground. */
  private double medianStepM(FarGround wide) {
    GridSpec spec = job.spec();
    HeightRows rows = job.heights();
    float[] row = new float[spec.cols()];
    double[] steps = new double[COMPARED * COMPARED];
    int n = 0;
    for (int i = 0; i < COMPARED; i++) {
      int r = (int) ((i + 0.5) * spec.rows() / COMPARED);
      rows.read(r, 1, row);
      for (int k = 0; k < COMPARED; k++) {
        int c = (int) ((k + 0.5) * spec.cols() / COMPARED);
        double step = wide.heightM(spec.xM(c), spec.yM(r)) - row[c];
        if (!Double.isNaN(step)) {
          steps[n++] = step;
        }
      }
    }
    Arrays.sort(steps, 0, n);
    return n == 0 ? 0 : steps[n / 2];
  }
}
