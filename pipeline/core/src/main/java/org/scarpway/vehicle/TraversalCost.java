package org.scarpway.vehicle;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.util.BitSet;
import java.util.HexFormat;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;

/**
 * Movement costs of a vehicle or walker per cell and heading (32 headings): the anisotropic cost
 * surface from which reach and corridors are computed. All costs are per metre of plan distance and
 * include the longer distance along the surface. They are infinite where the heading is not
 * allowed.
 *
 * <p>Costs are looked up by grade (rise over run along the heading) in one table per soil class, so
 * a cell needs only its gradient, its speed cap and a bit per heading.
 */
public final class TraversalCost {
  private final Memory memory;
  private final GridSpec spec;
  private final Ints allowed;
  private final Floats gradEast;
  private final Floats gradNorth;

  /** Upper bound on the speed per cell (m/s); null if there is none. */
  private final Floats speedCapMs;

  /** Detour factor around rocks per cell; null if there are no detours. */
  private final Floats detour;

  /** Table index per cell; null if there is one table. */
  private final Bytes soil;

  private final TackedHeadings tacks;
  private final GradeTable[] tables;
  private final LayerDigest layers;
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];

  /**
   * @param allowed bit k of a cell: heading k is allowed; 0 is a barrier
   * @param speedCapMs upper bound on the speed along the surface (m/s) from ride, crawl rule or
   *     slow zones; null for none
   * @param soil index into {@code tables} per cell; null where there is one
   */
  public TraversalCost(
      GridSpec spec,
      int[] allowed,
      float[] gradEast,
      float[] gradNorth,
      float[] speedCapMs,
      byte[] soil,
      GradeTable... tables) {
    this(new Memory(), spec, allowed, gradEast, gradNorth, speedCapMs, null, null, soil, tables);
  }

  /**
   * @param memory of the engine
   * @param detour distance around rocks divided by the straight distance, 1 or more where a heading
   *     is allowed; null if there are no detours. The extra distance takes the time of the heading
   *     and the traction energy of level ground, since it gains no height
   * @param tacks headings opened by tacks, null if there are none
   */
  TraversalCost(
      Memory memory,
      GridSpec spec,
      int[] allowed,
      float[] gradEast,
      float[] gradNorth,
      float[] speedCapMs,
      float[] detour,
      TackedHeadings tacks,
      byte[] soil,
      GradeTable... tables) {
    this(
        memory,
        spec,
        Ints.of(allowed),
        Floats.of(gradEast),
        Floats.of(gradNorth),
        Floats.of(speedCapMs),
        Floats.of(detour),
        tacks,
        Bytes.of(soil),
        tables);
  }

  /** The same layers with other tables. */
  private TraversalCost(TraversalCost same, GradeTable... tables) {
    this.memory = same.memory;
    this.spec = same.spec;
    this.allowed = same.allowed;
    this.gradEast = same.gradEast;
    this.gradNorth = same.gradNorth;
    this.speedCapMs = same.speedCapMs;
    this.detour = same.detour;
    this.tacks = same.tacks;
    this.soil = same.soil;
    this.tables = tables.clone();
    this.layers = same.layers;
    System.arraycopy(same.east, 0, east, 0, east.length);
    System.arraycopy(same.north, 0, north, 0, north.length);
  }

  /**
   * Creates a field whose layers may lie outside the heap, so that it may be larger than memory.
   * Each layer has one value per cell and must not be modified afterwards.
   *
   * @param speedCapMs null for none
   */
  public TraversalCost(
      GridSpec spec,
      Ints allowed,
      Floats gradEast,
      Floats gradNorth,
      Floats speedCapMs,
      GradeTable... tables) {
    this(new Memory(), spec, allowed, gradEast, gradNorth, speedCapMs, null, null, null, tables);
  }

  TraversalCost(
      Memory memory,
      GridSpec spec,
      Ints allowed,
      Floats gradEast,
      Floats gradNorth,
      Floats speedCapMs,
      Floats detour,
      TackedHeadings tacks,
      Bytes soil,
      GradeTable... tables) {
    int n = spec.cells();
    if (allowed.size() != n
        || gradEast.size() != n
        || gradNorth.size() != n
        || (speedCapMs != null && speedCapMs.size() != n)
        || (detour != null && detour.size() != n)
        || (soil != null && soil.size() != n)) {
      throw new IllegalArgumentException(
          "every layer must hold one value for each of the " + n + " cells");
    }
    this.memory = memory;
    this.spec = spec;
    this.allowed = allowed;
    this.gradEast = gradEast;
    this.gradNorth = gradNorth;
    this.speedCapMs = speedCapMs;
    this.detour = detour;
    this.tacks = tacks;
    this.soil = soil;
    this.tables = tables.clone();
    this.layers =
        new LayerDigest(spec, allowed, soil, tacks, gradEast, gradNorth, speedCapMs, detour);
    Headings headings = Headings.of(spec);
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = headings.east(k);
      north[k] = headings.north(k);
    }
  }

  /** Georeference of the cells. */
  public GridSpec spec() {
    return spec;
  }

  /**
   * True if the field is stored outside the heap; results computed on it should then be as well.
   */
  public boolean beyondHeap() {
    return allowed.inFile();
  }

  /**
   * Returns a scratch file for the given number of bytes computed on this field, null if they
   * belong on the heap.
   */
  public ScratchFile scratch(long bytes) {
    return beyondHeap() ? memory.scratch() : memory.scratch(bytes);
  }

  /**
   * Digest of everything that the costs depend on, in hexadecimal digits: equal digests mean equal
   * costs.
   */
  public String digest() {
    MessageDigest sha = LayerDigest.sha256();
    sha.update(layers.get());
    for (GradeTable t : tables) {
      t.addTo(sha);
    }
    return HexFormat.of().formatHex(sha.digest());
  }

  /** Digest of what costs depend on besides the values of cells. */
  public byte[] digestBesideCells() {
    MessageDigest sha = LayerDigest.sha256();
    sha.update(
        ByteBuffer.allocate(2 * (Integer.BYTES + Double.BYTES))
            .putInt(spec.rows())
            .putInt(spec.cols())
            .putDouble(spec.cellXM())
            .putDouble(spec.cellYM())
            .array());
    for (GradeTable t : tables) {
      t.addTo(sha);
    }
    return sha.digest();
  }

  /** Digest of the values of the cells of some rows and columns; the ends are exclusive. */
  public byte[] digestOfCells(int firstRow, int endRow, int firstCol, int endCol) {
    MessageDigest sha = LayerDigest.sha256();
    ByteBuffer row = ByteBuffer.allocate((endCol - firstCol) * (6 + Headings.COUNT) * Float.BYTES);
    for (int r = firstRow; r < endRow; r++) {
      row.clear();
      for (int c = firstCol; c < endCol; c++) {
        int cell = r * spec.cols() + c;
        row.putInt(allowed(cell)).putFloat(gradEast(cell)).putFloat(gradNorth(cell));
        row.putFloat(speedCapMs(cell)).putFloat((float) detour(cell)).putInt(soil(cell));
        for (int k = 0; tacks != null && tacks.tacked(cell) && k < Headings.COUNT; k++) {
          row.putFloat((float) tacks.pathRatio(cell, k));
        }
      }
      sha.update(row.flip());
    }
    return sha.digest();
  }

  /** The memory of the engine that made this field. */
  public Memory memory() {
    return memory;
  }

  /** Bit k set: heading k is allowed. */
  public int allowed(int cell) {
    return allowed.get(cell);
  }

  /**
   * True if a heading is allowed in a cell.
   *
   * @param cell index of the cell: row * cols + col
   * @param heading heading, 0 to 31 clockwise from north
   */
  public boolean allows(int cell, int heading) {
    return (allowed.get(cell) >>> heading & 1) != 0;
  }

  /** Rise over run towards the east. */
  public float gradEast(int cell) {
    return gradEast.get(cell);
  }

  /** Rise over run towards the north. */
  public float gradNorth(int cell) {
    return gradNorth.get(cell);
  }

  /** Upper bound on the speed along the surface (m/s). */
  public float speedCapMs(int cell) {
    return speedCapMs == null ? Float.POSITIVE_INFINITY : speedCapMs.get(cell);
  }

  /** Index of the cell's table. */
  public int soil(int cell) {
    return soil == null ? 0 : soil.get(cell);
  }

  /** Number of soil classes. */
  public int soils() {
    return tables.length;
  }

  /**
   * Returns the table of a soil class.
   *
   * @param soilIndex from 0, below {@link #soils}
   */
  public GradeTable table(int soilIndex) {
    return tables[soilIndex];
  }

  /** Returns this field with all cells outside the domain turned into barriers. */
  public TraversalCost within(BitSet domain) {
    Ints kept = Ints.of(spec.cells(), scratch((long) Integer.BYTES * spec.cells()));
    for (int i = domain.nextSetBit(0); i >= 0; i = domain.nextSetBit(i + 1)) {
      kept.set(i, allowed.get(i));
    }
    return new TraversalCost(
        memory, spec, kept, gradEast, gradNorth, speedCapMs, detour, tacks, soil, tables);
  }

  /**
   * Returns the field for the vehicle with more mass aboard: a heading is open only if it is open
   * both with and without the load, and is nowhere faster or cheaper than without. So a plan made
   * with the load stays valid without it.
   *
   * @param loaded field of the heavier vehicle on the same ground
   * @return the combined field; this one is not changed
   * @throws IllegalArgumentException if the fields differ in their grid or number of tables
   */
  public TraversalCost withLoad(TraversalCost loaded) {
    int n = spec.cells();
    if (loaded.tables.length != tables.length || !loaded.spec.sameCellsAs(spec)) {
      throw new IllegalArgumentException("a load changes neither the grid nor the soils");
    }
    ScratchFile file = scratch(2L * Integer.BYTES * n);
    Ints both = Ints.of(n, file);
    Floats cap = Floats.of(n, Float.NaN, file);
    for (int i = 0; i < n; i++) {
      both.set(i, allowed.get(i) & loaded.allowed.get(i));
      cap.set(i, Math.min(speedCapMs(i), loaded.speedCapMs(i)));
    }
    GradeTable[] worse = new GradeTable[tables.length];
    for (int t = 0; t < worse.length; t++) {
      worse[t] = tables[t].worse(loaded.tables[t]);
    }
    return new TraversalCost(
        memory, spec, both, gradEast, gradNorth, cap, detour, loaded.tacks, loaded.soil, worse);
  }

  /** Returns this field with each table replaced. */
  public TraversalCost withTables(GradeTable... others) {
    return new TraversalCost(this, others);
  }

  /**
   * Returns a field with the same headings, gradients and speed caps but other tables.
   *
   * @param soilOf index into the tables per cell
   */
  public TraversalCost withTables(Bytes soilOf, GradeTable... others) {
    return new TraversalCost(
        memory, spec, allowed, gradEast, gradNorth, speedCapMs, detour, tacks, soilOf, others);
  }

  /** Tacked headings, null if there are none. */
  TackedHeadings tacks() {
    return tacks;
  }

  Ints allowedLayer() {
    return allowed;
  }

  Floats gradEastLayer() {
    return gradEast;
  }

  Floats gradNorthLayer() {
    return gradNorth;
  }

  /** Null if there are no caps. */
  Floats speedCapLayer() {
    return speedCapMs;
  }

  /** Null if there are no detours. */
  Floats detourLayer() {
    return detour;
  }

  boolean capped() {
    return speedCapMs != null;
  }

  boolean detoured() {
    return detour != null;
  }

  GradeTable[] tables() {
    return tables.clone();
  }

  /**
   * Rise over run along the heading.
   *
   * @param cell index of the cell: row * cols + col
   * @param heading heading, 0 to 31 clockwise from north
   */
  public double grade(int cell, int heading) {
    return gradEast.get(cell) * east[heading] + gradNorth.get(cell) * north[heading];
  }

  /**
   * Surface metres per plan metre along the heading, detours and tacks included.
   *
   * @param cell index of the cell: row * cols + col
   * @param heading heading, 0 to 31 clockwise from north
   */
  public double lengthPerM(int cell, int heading) {
    double g = grade(cell, heading);
    return Math.sqrt(1 + g * g) * pathRatio(cell, heading);
  }

  /**
   * Distance driven divided by the straight distance: detours around rocks and, on tacked headings,
   * tacks.
   *
   * @param cell index of the cell: row * cols + col
   * @param heading heading, 0 to 31 clockwise from north
   */
  public double pathRatio(int cell, int heading) {
    double around = detour(cell);
    return tacks == null ? around : around * tacks.pathRatio(cell, heading);
  }

  /** True if some headings of a cell are driven by tacks. */
  public boolean tacked(int cell) {
    return tacks != null && tacks.tacked(cell);
  }

  /** Distance around rocks divided by the straight distance, 1 without rocks. */
  public double detour(int cell) {
    return detour == null ? 1 : detour.get(cell);
  }

  /**
   * Seconds per plan metre; infinite where the heading is not allowed.
   *
   * @param cell index of the cell: row * cols + col
   * @param heading heading, 0 to 31 clockwise from north
   */
  public double timeSPerM(int cell, int heading) {
    if (!allows(cell, heading)) {
      return Double.POSITIVE_INFINITY;
    }
    double g = grade(cell, heading);
    double speed = Math.min(speedCapMs(cell), tables[soil(cell)].speedMs(g));
    return speed > 0
        ? Math.sqrt(1 + g * g) * pathRatio(cell, heading) / speed
        : Double.POSITIVE_INFINITY;
  }

  /**
   * Joules per plan metre at the speed of {@link #timeSPerM}; negative where braking returns more
   * than the hotel load consumes. Infinite where the heading is not allowed.
   *
   * @param cell index of the cell: row * cols + col
   * @param heading heading, 0 to 31 clockwise from north
   */
  public double energyJPerM(int cell, int heading) {
    double time = timeSPerM(cell, heading);
    if (time == Double.POSITIVE_INFINITY) {
      return time;
    }
    double g = grade(cell, heading);
    GradeTable t = tables[soil(cell)];
    double surplus = (pathRatio(cell, heading) - 1) * t.tractionJPerM(0);
    return (t.tractionJPerM(g) + surplus) * Math.sqrt(1 + g * g) + t.hotelW() * time;
  }

  /**
   * Computes the means over the allowed headings of speed (m/s, plan metres without detours) and
   * energy (J per surface metre) of one cell; NaN where no heading is allowed.
   */
  void fillMeans(int cell, float[] meanSpeedMs, float[] meanEnergyJPerM) {
    int bits = allowed.get(cell);
    if (bits == 0) {
      meanSpeedMs[cell] = Float.NaN;
      meanEnergyJPerM[cell] = Float.NaN;
      return;
    }
    GradeTable t = tables[soil(cell)];
    double capMs = speedCapMs(cell);
    double ge = gradEast.get(cell);
    double gn = gradNorth.get(cell);
    double around = detour(cell);
    double levelJPerM = t.tractionJPerM(0);
    double speedSum = 0;
    double energySum = 0;
    int n = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      double at = t.entry(ge * east[k] + gn * north[k]);
      double speed = Math.min(capMs, t.speedMsAt(at));
      if ((bits >>> k & 1) != 0 && speed > 0) {
        double way = tacks == null ? around : pathRatio(cell, k);
        speedSum += speed / way;
        energySum += t.tractionJPerMAt(at) + (way - 1) * levelJPerM + t.hotelW() * way / speed;
        n++;
      }
    }
    meanSpeedMs[cell] = n == 0 ? Float.NaN : (float) (speedSum / n);
    meanEnergyJPerM[cell] = n == 0 ? Float.NaN : (float) (energySum / n);
  }

  /**
   * True if driving may return energy, so that the accumulated energy may decrease along a route.
   */
  public boolean gains() {
    for (GradeTable t : tables) {
      if (t.leastJPerM() < 0) {
        return true;
      }
    }
    return false;
  }

  /**
   * Joules per metre of height such that energy minus this times the height gained is never
   * negative (a Johnson potential); 0 without regeneration.
   */
  public double potentialJPerM() {
    double p = 0;
    for (GradeTable t : tables) {
      p = Math.max(p, t.potentialJPerM());
    }
    return p;
  }
}
