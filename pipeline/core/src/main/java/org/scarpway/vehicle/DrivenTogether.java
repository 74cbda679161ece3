package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.ScratchFile;

/**
 * The field of two vehicles that drive the same way: a heading is open only if it is open to both,
 * and is nowhere faster, shorter or cheaper than for either. A way that keeps a limit in this field
 * keeps it for each of the two.
 */
public final class DrivenTogether {
  /** Largest index of a table that a byte holds. */
  private static final int MOST_TABLES = Byte.MAX_VALUE;

  private final TraversalCost a;
  private final TraversalCost b;

  /** Pairs of tables that occur, as index in a times the number in b plus index in b. */
  private final List<Integer> pairs = new ArrayList<>();

  private DrivenTogether(TraversalCost a, TraversalCost b) {
    this.a = a;
    this.b = b;
  }

  /**
   * @param a its potential is that of the result
   * @param b field on the same cells with the same gradients
   * @param energyFactor by which energies of b are multiplied before they are compared, 0 or more
   * @throws IllegalArgumentException if the fields are not of the same ground
   */
  public static TraversalCost of(TraversalCost a, TraversalCost b, double energyFactor) {
    GradeTable[] scaled = b.tables();
    for (int t = 0; t < scaled.length; t++) {
      scaled[t] = scaled[t].weighted(energyFactor, 0, 0);
    }
    return new DrivenTogether(a, b.withTables(scaled)).field();
  }

  private TraversalCost field() {
    int n = a.spec().cells();
    if (!a.spec().sameCellsAs(b.spec())) {
      throw new IllegalArgumentException("vehicles that drive together share one grid");
    }
    ScratchFile file = a.scratch((3L * Integer.BYTES + 1) * n);
    Ints open = Ints.of(n, file);
    Floats cap = Floats.of(n, Float.NaN, file);
    Floats detour = a.detoured() || b.detoured() ? Floats.of(n, Float.NaN, file) : null;
    boolean many = a.soils() * b.soils() > MOST_TABLES;
    Bytes table = a.soils() * b.soils() == 1 || many ? null : Bytes.of(n, file);
    for (int i = 0; i < n; i++) {
      boolean same =
          Float.floatToIntBits(a.gradEast(i)) == Float.floatToIntBits(b.gradEast(i))
              && Float.floatToIntBits(a.gradNorth(i)) == Float.floatToIntBits(b.gradNorth(i));
      if (!same) {
        throw new IllegalArgumentException("vehicles that drive together share one ground");
      }
      open.set(i, a.allowed(i) & b.allowed(i));
      cap.set(i, Math.min(a.speedCapMs(i), b.speedCapMs(i)));
      if (detour != null) {
        detour.set(i, (float) Math.max(a.detour(i), b.detour(i)));
      }
      if (table != null) {
        table.set(i, (byte) index(a.soil(i) * b.soils() + b.soil(i)));
      }
    }
    return new TraversalCost(
        a.memory(),
        a.spec(),
        open,
        a.gradEastLayer(),
        a.gradNorthLayer(),
        cap,
        detour,
        TackedHeadings.longer(a.tacks(), b.tacks()),
        table,
        table == null ? new GradeTable[] {worstOfAll()} : tables());
  }

  private int index(int pair) {
    int at = pairs.indexOf(pair);
    if (at < 0) {
      at = pairs.size();
      pairs.add(pair);
    }
    return at;
  }

  private GradeTable[] tables() {
    return pairs.stream()
        .map(p -> a.table(Math.floorDiv(p, b.soils())).worse(b.table(p % b.soils())))
        .toArray(GradeTable[]::new);
  }

  /** One table for all soils, where there are too many pairs of them to tell apart. */
  private GradeTable worstOfAll() {
    GradeTable worst = a.table(0);
    for (GradeTable t : a.tables()) {
      worst = worst.worse(t);
    }
    for (GradeTable t : b.tables()) {
      worst = worst.worse(t);
    }
    return worst;
  }
}
