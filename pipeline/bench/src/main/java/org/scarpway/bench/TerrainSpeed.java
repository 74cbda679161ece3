package org.scarpway.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.scarpway.dem.HeightRows;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.geodata.tiff.RasterSink;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Footprint;
import org.scarpway.terrain.FootprintPlane;
import org.scarpway.terrain.HeightScale;
import org.scarpway.terrain.HornGradient;
import org.scarpway.terrain.TerrainLayers;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStrips;

/**
 * Terrain against gdaldem on one elevation model, in one run: is the slope kernel four times as
 * fast as the whole program, does a product of the stage cost no more than one of its, does the
 * footprint's size matter? {@code TerrainSpeed DIR}, with ground.tif of {@link LargeGround} there.
 */
public final class TerrainSpeed {
  private static final int STRIP_ROWS = 512;
  private static final int ROUNDS = 3;
  private static final int THREADS = 2;
  private static final List<String> COG =
      List.of("-of", "COG", "-co", "COMPRESS=DEFLATE", "-co", "LEVEL=1", "-co", "PREDICTOR=YES");

  private final Path dir;
  private final Path ground;
  private final RasterIo io = RasterIos.pureJava();
  private final GridSpec spec;

  private TerrainSpeed(Path dir) {
    this.dir = dir;
    this.ground = dir.resolve("ground.tif");
    try (RasterRows<float[]> rows = RasterRows.open(ground, CellKind.FLOAT32)) {
      this.spec = new GridSpec(rows.rows(), rows.cols(), 5, 5, 0, 0, "");
    }
  }

  public static void main(String[] args) throws IOException, InterruptedException {
    TerrainSpeed speed = new TerrainSpeed(Path.of(args[0]));
    for (int round = 1; round <= ROUNDS; round++) {
      System.out.println("round " + round);
      speed.round();
    }
  }

  private void round() throws IOException, InterruptedException {
    double cells = spec.cells();
    try (Workers workers = new Workers(THREADS)) {
      double kernelS = slopeKernel(workers);
      double gdalS = gdaldem("slope", List.of());
      say(
          "slope kernel %.1f Mcell/s, gdaldem slope %.1f Mcell/s: %.1f times",
          cells / kernelS / 1e6, cells / gdalS / 1e6, gdalS / kernelS);
      List<Double> each = new ArrayList<>();
      double stageS = stage(workers, each);
      double perProduct = stageS / each.get(0);
      double cogS = 0;
      for (String product : List.of("slope", "TRI", "roughness")) {
        cogS += gdaldem(product, COG);
      }
      say(
          "stage %.1f s for %.0f products, %.2f s each (%.1f ns per cell and product);"
              + " gdaldem COG %.2f s each: %.2f of it",
          stageS,
          each.get(0),
          perProduct,
          perProduct / cells * 1e9,
          cogS / 3,
          perProduct / (cogS / 3));
      double small = plane(1, workers);
      double large = plane(50, workers);
      say(
          "footprint plane, radius 1: %.1f ns per cell, radius 50: %.1f ns: %.2f times",
          small / cells * 1e9, large / cells * 1e9, large / small);
    }
  }

  /** Slope and nothing else of heights in memory, strip by strip, both cores. */
  private double slopeKernel(Workers workers) {
    double[] s = {0};
    float[] east = new float[(STRIP_ROWS + 2) * spec.cols()];
    float[] north = new float[east.length];
    float[] slope = new float[east.length];
    eachStrip(
        1,
        (z, rows) -> {
          long t = System.nanoTime();
          workers.overRows(
              rows,
              (from, to) -> {
                HornGradient.fill(z, rows, spec.cols(), from, to, 5, 5, east, north);
                SlopeAlone.fill(east, north, spec.cols(), from, to, slope);
              });
          s[0] += (System.nanoTime() - t) * 1e-9;
        });
    return s[0];
  }

  private double plane(int radiusCells, Workers workers) {
    Footprint footprint = Footprint.disc(radiusCells * 5.0, 5, 5);
    HeightScale scale = HeightScale.of(-1000, 1000, footprint);
    double[] s = {0};
    int halo = 50;
    float[] east = new float[(STRIP_ROWS + 2 * halo) * spec.cols()];
    float[] north = new float[east.length];
    float[] rough = new float[east.length];
    eachStrip(
        halo,
        (z, rows) -> {
          int half = rows / 2;
          long t = System.nanoTime();
          List<Runnable> bands =
              List.of(
                  () -> band(z, rows, 0, half, footprint, scale, east, north, rough),
                  () -> band(z, rows, half, rows, footprint, scale, east, north, rough));
          workers.all(bands);
          s[0] += (System.nanoTime() - t) * 1e-9;
        });
    return s[0];
  }

  private void band(
      float[] z,
      int rows,
      int from,
      int to,
      Footprint footprint,
      HeightScale scale,
      float[] east,
      float[] north,
      float[] rough) {
    FootprintPlane.fill(z, rows, spec.cols(), from, to, footprint, scale, 5, 5, east, north, rough);
  }

  private interface StripTask {
    void on(float[] heightM, int rows);
  }

  private void eachStrip(int halo, StripTask task) {
    try (RasterRows<float[]> file = RasterRows.open(ground, CellKind.FLOAT32)) {
      float[] z = new float[(STRIP_ROWS + 2 * halo) * spec.cols()];
      for (int row = 0; row < spec.rows(); row += STRIP_ROWS) {
        int top = Math.max(0, row - halo);
        int end = Math.min(spec.rows(), row + STRIP_ROWS + halo);
        file.read(top, end - top, z);
        task.on(z, end - top);
      }
    }
  }

  private record FileRows(GridSpec spec, RasterRows<float[]> file) implements HeightRows {
    @Override
    public double lowestM() {
      return -1000;
    }

    @Override
    public double highestM() {
      return 1000;
    }

    @Override
    public void read(int firstRow, int rows, float[] out) {
      file.read(firstRow, rows, out);
    }
  }

  /** From the file to finished products; tells how many in {@code products}. */
  private double stage(Workers workers, List<Double> products) throws IOException {
    Map<String, Function<TerrainLayers, FloatGrid>> layers = new LinkedHashMap<>();
    layers.put("elevation", t -> t.terrain().heightM());
    layers.put("slope", t -> t.terrain().slopeDeg());
    layers.put("aspect", TerrainLayers::aspectDeg);
    layers.put("east", t -> t.terrain().gradEast());
    layers.put("north", t -> t.terrain().gradNorth());
    layers.put("roughness", t -> t.terrain().roughnessM());
    layers.put("step", t -> t.terrain().stepM());
    layers.put("ruggedness", TerrainLayers::ruggednessM);
    layers.put("convexity", t -> t.terrain().convexityM());
    products.add((double) layers.size());
    Path out = Files.createDirectories(dir.resolve("products"));
    TerrainParams params = new TerrainParams(SlopeMethod.HORN, 30, 12, 20);
    long t = System.nanoTime();
    Map<RasterSink<float[]>, Function<TerrainLayers, FloatGrid>> sinks = new LinkedHashMap<>();
    layers.forEach(
        (name, layer) ->
            sinks.put(
                io.sink(out.resolve(name + ".tif"), spec, CellKind.FLOAT32, BandInfo.of(name, "")),
                layer));
    try (RasterRows<float[]> file = RasterRows.open(ground, CellKind.FLOAT32)) {
      TerrainStrips strips = new TerrainStrips(new FileRows(spec, file), params);
      for (int row = 0; row < spec.rows(); row += STRIP_ROWS) {
        int rows = Math.min(STRIP_ROWS, spec.rows() - row);
        TerrainStrips.Strip s = strips.strip(row, rows, workers, Progress.NONE);
        List<Runnable> writes = new ArrayList<>();
        sinks.forEach(
            (sink, layer) ->
                writes.add(
                    () ->
                        sink.append(
                            layer.apply(s.layers()).values(), s.skipRows() * spec.cols(), rows)));
        workers.all(writes);
      }
      List<Runnable> ends = new ArrayList<>();
      sinks.keySet().forEach(sink -> ends.add(sink::finish));
      workers.all(ends);
    } finally {
      sinks.keySet().forEach(RasterSink::close);
    }
    return (System.nanoTime() - t) * 1e-9;
  }

  private double gdaldem(String product, List<String> options)
      throws IOException, InterruptedException {
    Path out = dir.resolve("gdaldem.tif");
    Files.deleteIfExists(out);
    List<String> command = new ArrayList<>(List.of("gdaldem", product, "-q"));
    command.addAll(options);
    if (!options.isEmpty()) {
      command.addAll(List.of("-co", "NUM_THREADS=" + THREADS));
    }
    command.addAll(List.of(ground.toString(), out.toString()));
    long t = System.nanoTime();
    int code = new ProcessBuilder(command).inheritIO().start().waitFor();
    if (code != 0) {
      throw new IOException("gdaldem ended with " + code);
    }
    return (System.nanoTime() - t) * 1e-9;
  }

  private static void say(String format, Object... values) {
    System.out.println(String.format(Locale.ROOT, format, values));
  }
}
