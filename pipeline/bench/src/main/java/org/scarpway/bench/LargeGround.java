package org.scarpway.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterSink;
import org.scarpway.grid.GridSpec;

/**
 * Writes an elevation model of any size and a job on it, without holding it: {@code LargeGround DIR
 * SIDE VEHICLE HOURS}; with hours the job asks for the reach from the middle too. The ground is a
 * sum of smooth noise over lattices of 4 to 4096 cells, from a hash of the lattice points: the same
 * cells on every machine.
 */
public final class LargeGround {
  private static final double CELL_M = 5;
  private static final int FINEST = 2;
  private static final int COARSEST = 12;
  private static final double FINEST_RELIEF_M = 1.5;

  /** How much higher lattices of twice the size are: a Hurst exponent of 0.77. */
  private static final double GROWTH = 1.7;

  private static final String MOON_SOUTH =
      "PROJCS[\"Moon south\",GEOGCS[\"Moon\",DATUM[\"Moon\",SPHEROID[\"Moon\",1737400,0]],"
          + "PRIMEM[\"Reference meridian\",0],UNIT[\"degree\",0.0174532925199433]],"
          + "PROJECTION[\"Polar_Stereographic\"],PARAMETER[\"latitude_of_origin\",-90],"
          + "PARAMETER[\"central_meridian\",0],PARAMETER[\"scale_factor\",1],"
          + "PARAMETER[\"false_easting\",0],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";

  private LargeGround() {}

  public static void main(String[] args) throws IOException {
    Path dir = Path.of(args[0]);
    int side = Integer.parseInt(args[1]);
    Files.createDirectories(dir);
    double half = side * CELL_M / 2;
    GridSpec spec = new GridSpec(side, side, CELL_M, CELL_M, -half, half, MOON_SOUTH);
    float[] row = new float[side];
    try (RasterSink<float[]> sink =
        RasterIos.pureJava()
            .sink(
                dir.resolve("ground.tif"),
                spec,
                CellKind.FLOAT32,
                BandInfo.of("synthetic height", "m"))) {
      for (int r = 0; r < side; r++) {
        fill(r, row);
        sink.append(row, 0, 1);
      }
      sink.finish();
    }
    Files.writeString(dir.resolve("job.yaml"), job(side, args[2], Double.parseDouble(args[3])));
  }

  static void fill(int row, float[] out) {
    double[] sum = new double[out.length];
    double reliefM = FINEST_RELIEF_M;
    for (int octave = FINEST; octave <= COARSEST; octave++) {
      addOctave(octave, row, reliefM, sum);
      reliefM *= GROWTH;
    }
    for (int c = 0; c < out.length; c++) {
      out[c] = (float) sum[c];
    }
  }

  private static void addOctave(int octave, int row, double reliefM, double[] sum) {
    int size = 1 << octave;
    int up = row >> octave;
    double v = smooth((double) (row & (size - 1)) / size);
    double west = lattice(octave, up, 0, v);
    for (int col = 0, k = 0; col < sum.length; k++) {
      double east = lattice(octave, up, k + 1, v);
      for (int c = 0; c < size && col < sum.length; c++, col++) {
        sum[col] += reliefM * (west + (east - west) * smooth((double) c / size));
      }
      west = east;
    }
  }

  private static double smooth(double t) {
    return t * t * (3 - 2 * t);
  }

  private static double lattice(int octave, int row, int col, double v) {
    double north = hash(octave, row, col);
    return north + (hash(octave, row + 1, col) - north) * v;
  }

  /** Evenly spread over [-1, 1). */
  private static double hash(int octave, int row, int col) {
    long h = octave * 0x9E3779B97F4A7C15L ^ row * 0xBF58476D1CE4E5B9L ^ col * 0x94D049BB133111EBL;
    h = (h ^ (h >>> 30)) * 0xBF58476D1CE4E5B9L;
    h = (h ^ (h >>> 27)) * 0x94D049BB133111EBL;
    return ((h ^ (h >>> 31)) >> 11) * 0x1p-52;
  }

  private static String job(int side, String vehicle, double hours) {
    String job =
        String.format(
            Locale.ROOT,
            """
        scarpway: 1
        job: large-ground
        body: moon
        dem: {source: ground.tif, max_cells: %d}
        vehicles: [%s]
        """,
            (long) side * side,
            vehicle);
    return hours > 0 ? job + reach(hours) : job;
  }

  private static String reach(double hours) {
    return String.format(
        Locale.ROOT,
        """
        bases: {middle: [0, 0]}
        reach:
          - {name: sortie, from: middle, budget: {drive_h: %s, energy_kwh: 60}, home: drive-back, bands: [30min, 1h]}
        """,
        hours);
  }
}
