package org.scarpway.run.compare;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.geodata.tiff.RasterSink;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachState;
import org.scarpway.report.CodeColours;
import org.scarpway.report.ComparisonData.Change;
import org.scarpway.run.product.RasterStyle;

/** Writes where two runs differ, cell by cell, as rasters of codes with their meaning. */
final class ChangedGround {
  private static final int ROWS_AT_A_TIME = 256;

  /** Classes of ground, by their code in class.tif. */
  private static final String[] CLASSES = {"no verdict", "go", "slow", "no-go"};

  private final RasterIo io;
  private final GridSpec spec;

  ChangedGround(RasterIo io, GridSpec spec) {
    this.io = io;
    this.spec = spec;
  }

  private interface Code {
    byte of(byte before, byte after);
  }

  /** The meaning of every code of a change of reach. */
  static Map<String, String> reachCodes() {
    return Map.of("CODE_1", "reached by both", "CODE_2", "gained", "CODE_3", "lost");
  }

  /**
   * The meaning of every code of a change of class: 1 plus 4 times the code before plus the code
   * after.
   */
  static Map<String, String> classCodes() {
    Map<String, String> codes = new TreeMap<>();
    for (int from = 0; from < CLASSES.length; from++) {
      for (int to = 0; to < CLASSES.length; to++) {
        codes.put(
            String.format(Locale.ROOT, "CODE_%02d", 1 + 4 * from + to),
            from == to ? CLASSES[from] + ", unchanged" : CLASSES[from] + " to " + CLASSES[to]);
      }
    }
    return codes;
  }

  /** Colours by the kind of change; ground without a verdict in both runs has none. */
  private static Map<Integer, Integer> classColours() {
    Map<Integer, Integer> ofKind = CodeColours.classChanges();
    Map<Integer, Integer> colours = new TreeMap<>();
    for (int code = 1; code <= CLASSES.length * CLASSES.length; code++) {
      int kind = ClassChange.kind(code);
      if (kind != 0) {
        colours.put(code, ofKind.get(kind));
      }
    }
    return colours;
  }

  /** What is surely reached counts; what is possibly reached does not. */
  long[] reach(Path before, Path after, Path file, String about) {
    BandInfo info = BandInfo.codes(about, reachCodes()).coloured(CodeColours.reachChanges());
    return write(before, after, file, info, ChangedGround::reach);
  }

  long[] classes(Path before, Path after, Path file, String about) {
    return write(
        before,
        after,
        file,
        BandInfo.codes(about, classCodes()).coloured(classColours()),
        (from, to) -> (byte) (1 + 4 * from + to));
  }

  private static byte reach(byte before, byte after) {
    boolean was = before == ReachState.SURELY;
    boolean is = after == ReachState.SURELY;
    return (byte) (was && is ? Change.BOTH : is ? Change.GAINED : was ? Change.LOST : 0);
  }

  /** Returns the number of cells of each code. */
  private long[] write(Path before, Path after, Path file, BandInfo info, Code code) {
    long[] cells = new long[256];
    try (RasterRows<byte[]> first = RasterRows.open(before, CellKind.UINT8);
        RasterRows<byte[]> second = RasterRows.open(after, CellKind.UINT8);
        RasterSink<byte[]> sink = io.sink(file, spec, CellKind.UINT8, info)) {
      byte[] a = new byte[ROWS_AT_A_TIME * spec.cols()];
      byte[] b = new byte[a.length];
      for (int row = 0; row < spec.rows(); row += ROWS_AT_A_TIME) {
        int n = Math.min(ROWS_AT_A_TIME, spec.rows() - row);
        first.read(row, n, a);
        second.read(row, n, b);
        for (int i = 0; i < n * spec.cols(); i++) {
          a[i] = code.of(a[i], b[i]);
          cells[a[i]]++;
        }
        sink.append(a, 0, n);
      }
      sink.finish();
    }
    String name = file.getFileName().toString().replaceAll("\\.tif$", "");
    RasterStyle.write(file.getParent(), name, info, Double.NaN, Double.NaN);
    return cells;
  }
}
