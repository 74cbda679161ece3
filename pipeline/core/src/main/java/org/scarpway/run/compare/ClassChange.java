package org.scarpway.run.compare;

import java.util.Locale;
import org.scarpway.grid.ByteGrid;
import org.scarpway.report.ComparisonData.Change;
import org.scarpway.stage.Digits;
import org.scarpway.vehicle.Mobility;

/** Sums up changes of class: to a better one, to a worse one, or a verdict in one run only. */
final class ClassChange {
  private ClassChange() {}

  /** The kind of a change by its code in the raster; 0 for ground without a verdict in both. */
  static byte kind(int code) {
    int from = (code - 1) / 4;
    int to = (code - 1) % 4;
    if (from == to) {
      return (byte) (from == 0 ? 0 : Change.BOTH);
    }
    if (from == 0 || to == 0) {
      return Change.OTHER;
    }
    return (byte) (to < from ? Change.GAINED : Change.LOST);
  }

  static ByteGrid shown(ByteGrid codes) {
    byte[] kinds = new byte[codes.values().length];
    for (int i = 0; i < kinds.length; i++) {
      kinds[i] = kind(codes.values()[i]);
    }
    return new ByteGrid(codes.spec(), kinds);
  }

  static String text(long[] cells, double cellM2) {
    long[] sums = new long[Change.OTHER + 1];
    long closed = 0;
    long opened = 0;
    for (int code = 1; code <= 16; code++) {
      sums[kind(code)] += cells[code];
      boolean wasShut = (code - 1) / 4 == Mobility.NO_GO;
      boolean isShut = (code - 1) % 4 == Mobility.NO_GO;
      boolean judged = kind(code) == Change.GAINED || kind(code) == Change.LOST;
      opened += judged && wasShut ? cells[code] : 0;
      closed += judged && isShut ? cells[code] : 0;
    }
    double km2 = cellM2 / 1e6;
    if (sums[Change.GAINED] + sums[Change.LOST] + sums[Change.OTHER] == 0) {
      return "every cell is of the same class";
    }
    return String.format(
        Locale.ROOT,
        "%s km2 of better class (%s km2 of it opened), %s km2 of worse (%s km2 of it closed),"
            + " %s km2 with a verdict in one run only",
        Digits.of(sums[Change.GAINED] * km2),
        Digits.of(opened * km2),
        Digits.of(sums[Change.LOST] * km2),
        Digits.of(closed * km2),
        Digits.of(sums[Change.OTHER] * km2));
  }
}
