package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.geodata.table.CsvTable.Column;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.FileBatch;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.terrain.Derivative;
import org.scarpway.terrain.OptionalDerivatives;
import org.scarpway.terrain.Scaling;
import org.scarpway.terrain.SelfAffine;
import org.scarpway.terrain.Terrain;

/**
 * The stage derivatives/: the derivatives of the ground that the job asks for in addition to
 * terrain/.
 */
final class DerivativesTask implements StageTask<OptionalDerivatives> {
  private static final int VERSION = 1;

  private final Job.TerrainSettings settings;
  private final GridSpec spec;
  private final Supplier<Terrain> terrain;
  private final GroundStages stages;
  private final RasterIo io;
  private final StageKey key;

  DerivativesTask(OpenJob job, StageNode<Terrain> terrain) {
    this.settings = job.job().terrain();
    this.spec = job.spec();
    this.terrain = terrain;
    this.stages = job.stages();
    this.io = job.io();
    this.key =
        StageKey.of("derivatives", VERSION)
            .add(terrain.key())
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
  public OptionalDerivatives compute() {
    return stages.moreTerrain(terrain.get());
  }

  @Override
  public void write(Path dir, OptionalDerivatives more) {
    FileBatch files = stages.files();
    more.derivatives()
        .forEach(
            (d, grid) -> files.add(file(dir, d), grid, BandInfo.of(d.description(), d.unit())));
    files.write();
    if (more.scaling() != null) {
      writeScaling(dir, more.scaling());
      StoredResult.write(dir, more.scaling());
    }
  }

  private static Path file(Path dir, Derivative d) {
    String unit =
        switch (d.unit()) {
          case "1/m" -> "_per_m";
          case "1" -> "";
          default -> "_" + d.unit();
        };
    return dir.resolve(d.name().toLowerCase(Locale.ROOT) + unit + ".tif");
  }

  private static void writeScaling(Path dir, Scaling s) {
    SelfAffine law = s.law();
    List<List<Object>> rows = new ArrayList<>();
    for (Scaling.Lag lag : s.lags()) {
      List<Object> row = new ArrayList<>();
      row.add(lag.along());
      row.add(lag.lagM());
      row.add(lag.deviationM());
      row.add(lag.rmsSlopeDeg());
      row.add(lag.medianDifferentialSlopeDeg());
      row.add(law == null ? null : law.deviationM(lag.lagM()));
      rows.add(row);
    }
    CsvTable.write(
        dir.resolve("scaling.csv"),
        List.of(
            Column.text("along"),
            Column.number("lag_m", 3),
            Column.number("rms_deviation_m", 6),
            Column.number("rms_slope_deg", 5),
            Column.number("median_differential_slope_deg", 5),
            Column.number("law_m", 6)),
        rows);
    if (law == null) {
      return;
    }
    List<Object> row = new ArrayList<>();
    row.add(law.hurst());
    row.add(law.hurstLow());
    row.add(law.hurstHigh());
    row.add(law.r2());
    row.add(law.points());
    row.add(s.estimate().lagM());
    row.add(s.estimate().deviationM());
    row.add(s.estimate().lowM());
    row.add(s.estimate().highM());
    CsvTable.write(
        dir.resolve("scaling_law.csv"),
        List.of(
            Column.number("hurst", 4),
            Column.number("hurst_low", 4),
            Column.number("hurst_high", 4),
            Column.number("r2", 5),
            Column.text("points"),
            Column.number("baseline_m", 3),
            Column.number("deviation_at_baseline_m", 6),
            Column.number("deviation_low_m", 6),
            Column.number("deviation_high_m", 6)),
        List.of(row));
  }

  @Override
  public OptionalDerivatives load(Path dir) {
    Map<Derivative, FloatGrid> grids = new EnumMap<>(Derivative.class);
    for (Derivative d : settings.also()) {
      grids.put(d, new FloatGrid(spec, io.readFloats(file(dir, d)).values()));
    }
    Scaling scaling = settings.scaling() ? StoredResult.read(dir, Scaling.class) : null;
    return new OptionalDerivatives(grids, scaling, null);
  }
}
