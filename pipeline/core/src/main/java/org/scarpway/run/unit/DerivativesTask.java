package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import org.scarpway.config.Job;
import org.scarpway.dem.HeightRows;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.terrain.Derivative;
import org.scarpway.terrain.DerivativeStage;
import org.scarpway.terrain.OptionalDerivatives;
import org.scarpway.terrain.Scaling;
import org.scarpway.terrain.SelfAffine;
import org.scarpway.terrain.TerrainParams;

/**
 * The stage derivatives/: the derivatives of the ground that the job asks for in addition to
 * terrain/.
 */
final class DerivativesTask implements StageTask<OptionalDerivatives> {
  private static final int VERSION = 3;

  private static final List<Column<Scaling>> LAW =
      List.of(
          Column.number("hurst", 4, s -> s.law().hurst()),
          Column.number("hurst_low", 4, s -> s.law().hurstLow()),
          Column.number("hurst_high", 4, s -> s.law().hurstHigh()),
          Column.number("r2", 5, s -> s.law().r2()),
          Column.whole("points", s -> s.law().points()),
          Column.number("baseline_m", 3, s -> s.estimate().lagM()),
          Column.number("deviation_at_baseline_m", 6, s -> s.estimate().deviationM()),
          Column.number("deviation_low_m", 6, s -> s.estimate().lowM()),
          Column.number("deviation_high_m", 6, s -> s.estimate().highM()));

  private final Job.TerrainSettings settings;
  private final OpenJob job;
  private final GridSpec spec;
  private final TerrainParams params;
  private final FinishedGround ground;
  private final StageKey key;

  DerivativesTask(OpenJob job, StageKey terrain, FinishedGround ground) {
    this.settings = job.job().terrain();
    this.spec = job.spec();
    this.ground = ground;
    this.job = job;
    this.params = job.stages().terrainParams(spec);
    this.key =
        StageKey.of("derivatives", VERSION)
            .add(terrain)
            .add("also", new TreeSet<>(settings.also()))
            .add("scaling", settings.scaling())
            .build();
  }

  /** True if the job asks for any of them. */
  static boolean wanted(Job job) {
    return !job.terrain().also().isEmpty() || job.terrain().scaling();
  }

  @Override
  public String id() {
    return "derivatives";
  }

  @Override
  public StageKey key() {
    return key;
  }

  @Override
  public long cells() {
    return spec.cells();
  }

  @Override
  public void make(Path dir) {
    if (!settings.also().isEmpty()) {
      writeDerivatives(dir);
    }
    if (settings.scaling()) {
      Scaling scaling = Scaling.of(job.heights(), params.baselineM());
      writeScaling(dir, scaling);
      StoredResult.write(dir, scaling);
    }
  }

  private void writeDerivatives(Path dir) {
    List<RasterProduct<Map<Derivative, FloatGrid>, ?>> products = new ArrayList<>();
    for (Derivative d : settings.also()) {
      BandInfo info = BandInfo.of(d.description(), d.unit());
      products.add(RasterProduct.floats(name(d), info, all -> all.get(d)));
    }
    HeightRows heights = job.heights();
    job.progress().begin("derivatives", spec.cells());
    try (ProductFiles<Map<Derivative, FloatGrid>> files = job.stages().files(dir, spec, products);
        FinishedGround.TerrainRows terrain = ground.terrain()) {
      job.strips()
          .each(
              DerivativeStage.haloRows(params, spec),
              (top, fromRow, rows, end) ->
                  files.append(
                      DerivativeStage.strip(
                          terrain.rows(top, end - top),
                          fromRow - top,
                          rows,
                          heights,
                          params,
                          settings.also(),
                          job.workers(),
                          job.progress()),
                      fromRow - top,
                      rows));
      files.finish();
    }
    job.progress().end();
  }

  private static String name(Derivative d) {
    String unit =
        switch (d.unit()) {
          case "1/m" -> "_per_m";
          case "1" -> "";
          default -> "_" + d.unit();
        };
    return d.name().toLowerCase(Locale.ROOT) + unit;
  }

  private static void writeScaling(Path dir, Scaling s) {
    SelfAffine law = s.law();
    CsvTable.write(
        dir.resolve("scaling.csv"),
        List.of(
            Column.text("along", Scaling.Lag::along),
            Column.number("lag_m", 3, Scaling.Lag::lagM),
            Column.number("rms_deviation_m", 6, Scaling.Lag::deviationM),
            Column.number("rms_slope_deg", 5, Scaling.Lag::rmsSlopeDeg),
            Column.number(
                "median_differential_slope_deg", 5, Scaling.Lag::medianDifferentialSlopeDeg),
            Column.number("law_m", 6, l -> law == null ? Double.NaN : law.deviationM(l.lagM()))),
        s.lags());
    if (law != null) {
      CsvTable.write(dir.resolve("scaling_law.csv"), LAW, List.of(s));
    }
  }

  @Override
  public OptionalDerivatives load(Path dir) {
    Map<Derivative, FloatGrid> grids = new EnumMap<>(Derivative.class);
    for (Derivative d : settings.also()) {
      grids.put(d, job.strips().shown().floats(dir.resolve(name(d) + ".tif")));
    }
    Scaling scaling = settings.scaling() ? StoredResult.read(dir, Scaling.class) : null;
    return new OptionalDerivatives(grids, scaling, null);
  }
}
