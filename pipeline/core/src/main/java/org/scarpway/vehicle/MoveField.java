package org.scarpway.vehicle;

import java.nio.ByteBuffer;
import java.nio.FloatBuffer;
import java.nio.IntBuffer;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * What it costs a vehicle or walker to cross each cell on each of the 32 headings: the truth that
 * reach and corridors are computed from. Everything is per metre of plan distance, with the longer
 * way along the surface included. Infinite where the heading is not allowed.
 *
 * <p>Costs are looked up by grade (rise over run along the heading) in one table per ground class,
 * so a cell needs only its gradient, its speed cap and a bit per heading.
 */
public final class MoveField {
  private final GridSpec spec;
  private final IntBuffer allowed;
  private final FloatBuffer gradEast;
  private final FloatBuffer gradNorth;
  private final FloatBuffer speedCapMs;
  private final FloatBuffer detour;
  private final ByteBuffer ground;
  private final TackWays tacks;
  private final GradeTable[] tables;
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];

  /**
   * @param allowed bit k of a cell: heading k may be driven; 0 is a barrier
   * @param speedCapMs upper bound on the speed along the surface from ride, crawl rule or slow
   *     zones
   * @param ground index into {@code tables} per cell
   */
  public MoveField(
      GridSpec spec,
      int[] allowed,
      float[] gradEast,
      float[] gradNorth,
      float[] speedCapMs,
      byte[] ground,
      GradeTable... tables) {
    this(spec, allowed, gradEast, gradNorth, speedCapMs, null, null, ground, tables);
  }

  /**
   * @param detour length of the way around rocks over the straight way, 1 or more where a heading
   *     is allowed; null where there are none. The surplus is driven at the time of the heading and
   *     at the traction energy of level ground, since it gains no height
   * @param tacks headings made good by tacks, null where there are none
   */
  MoveField(
      GridSpec spec,
      int[] allowed,
      float[] gradEast,
      float[] gradNorth,
      float[] speedCapMs,
      float[] detour,
      TackWays tacks,
      byte[] ground,
      GradeTable... tables) {
    this(
        spec,
        IntBuffer.wrap(allowed),
        FloatBuffer.wrap(gradEast),
        FloatBuffer.wrap(gradNorth),
        FloatBuffer.wrap(speedCapMs),
        detour == null ? null : FloatBuffer.wrap(detour),
        tacks,
        ByteBuffer.wrap(ground),
        tables);
  }

  /**
   * A field whose values need not be on the heap, so that it may be larger than memory. The buffers
   * hold one value per cell from their beginning and are not written any more.
   *
   * @param detour null where there are none
   */
  public MoveField(
      GridSpec spec,
      IntBuffer allowed,
      FloatBuffer gradEast,
      FloatBuffer gradNorth,
      FloatBuffer speedCapMs,
      FloatBuffer detour,
      ByteBuffer ground,
      GradeTable... tables) {
    this(spec, allowed, gradEast, gradNorth, speedCapMs, detour, null, ground, tables);
  }

  private MoveField(
      GridSpec spec,
      IntBuffer allowed,
      FloatBuffer gradEast,
      FloatBuffer gradNorth,
      FloatBuffer speedCapMs,
      FloatBuffer detour,
      TackWays tacks,
      ByteBuffer ground,
      GradeTable... tables) {
    int n = spec.cells();
    if (allowed.capacity() != n
        || gradEast.capacity() != n
        || gradNorth.capacity() != n
        || speedCapMs.capacity() != n
        || (detour != null && detour.capacity() != n)
        || ground.capacity() != n) {
      throw new IllegalArgumentException(
          "every layer must hold one value for each of the " + n + " cells");
    }
    this.spec = spec;
    this.allowed = allowed;
    this.gradEast = gradEast;
    this.gradNorth = gradNorth;
    this.speedCapMs = speedCapMs;
    this.detour = detour;
    this.tacks = tacks;
    this.ground = ground;
    this.tables = tables.clone();
    Headings headings = Headings.of(spec);
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = headings.east(k);
      north[k] = headings.north(k);
    }
  }

  public GridSpec spec() {
    return spec;
  }

  /** Bit k set: heading k is allowed. */
  public int allowed(int cell) {
    return allowed.get(cell);
  }

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
    return speedCapMs.get(cell);
  }

  /** Index of the cell's table. */
  public int ground(int cell) {
    return ground.get(cell);
  }

  /** How many ground classes there are. */
  public int grounds() {
    return tables.length;
  }

  public GradeTable table(int groundIndex) {
    return tables[groundIndex];
  }

  /** The same field with cells outside the domain made barriers. */
  public MoveField within(BitSet domain) {
    int[] kept = new int[spec.cells()];
    for (int i = domain.nextSetBit(0); i >= 0; i = domain.nextSetBit(i + 1)) {
      kept[i] = allowed.get(i);
    }
    return new MoveField(
        spec, IntBuffer.wrap(kept), gradEast, gradNorth, speedCapMs, detour, tacks, ground, tables);
  }

  /**
   * The same headings, gradients and speed caps with other tables.
   *
   * @param groundOf index into the tables per cell
   */
  public MoveField withTables(byte[] groundOf, GradeTable... others) {
    return new MoveField(
        spec,
        allowed,
        gradEast,
        gradNorth,
        speedCapMs,
        detour,
        tacks,
        ByteBuffer.wrap(groundOf),
        others);
  }

  /** Rise over run along the heading. */
  public double grade(int cell, int heading) {
    return gradEast.get(cell) * east[heading] + gradNorth.get(cell) * north[heading];
  }

  /** Surface metres per plan metre along the heading, detours and tacks included. */
  public double lengthPerM(int cell, int heading) {
    double g = grade(cell, heading);
    return Math.sqrt(1 + g * g) * way(cell, heading);
  }

  /** Way driven over the straight way: around rocks and, where the heading is tacked, in tacks. */
  public double way(int cell, int heading) {
    double around = detour(cell);
    return tacks == null ? around : around * tacks.longer(cell, heading);
  }

  /** Length of the way around rocks over the straight way, 1 where there are none. */
  public double detour(int cell) {
    return detour == null ? 1 : detour.get(cell);
  }

  /** Seconds per plan metre; infinite where the heading is not allowed. */
  public double timeSPerM(int cell, int heading) {
    if (!allows(cell, heading)) {
      return Double.POSITIVE_INFINITY;
    }
    double g = grade(cell, heading);
    double speed = Math.min(speedCapMs.get(cell), tables[ground.get(cell)].speedMs(g));
    return speed > 0 ? Math.sqrt(1 + g * g) * way(cell, heading) / speed : Double.POSITIVE_INFINITY;
  }

  /**
   * Joules per plan metre at the speed of {@link #timeSPerM}; negative where braking returns more
   * than the hotel load takes. Infinite where the heading is not allowed.
   */
  public double energyJPerM(int cell, int heading) {
    double time = timeSPerM(cell, heading);
    if (time == Double.POSITIVE_INFINITY) {
      return time;
    }
    double g = grade(cell, heading);
    GradeTable t = tables[ground.get(cell)];
    double surplus = (way(cell, heading) - 1) * t.tractionJPerM(0);
    return (t.tractionJPerM(g) + surplus) * Math.sqrt(1 + g * g) + t.hotelW() * time;
  }

  /**
   * Means over the allowed headings of speed (m/s, plan metres without detours) and energy (J per
   * surface metre) of one cell; NaN where no heading is allowed.
   */
  void fillMeans(int cell, float[] meanSpeedMs, float[] meanEnergyJPerM) {
    int bits = allowed.get(cell);
    if (bits == 0) {
      meanSpeedMs[cell] = Float.NaN;
      meanEnergyJPerM[cell] = Float.NaN;
      return;
    }
    GradeTable t = tables[ground.get(cell)];
    double capMs = speedCapMs.get(cell);
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
        double way = tacks == null ? around : way(cell, k);
        speedSum += speed / way;
        energySum += t.tractionJPerMAt(at) + (way - 1) * levelJPerM + t.hotelW() * way / speed;
        n++;
      }
    }
    meanSpeedMs[cell] = n == 0 ? Float.NaN : (float) (speedSum / n);
    meanEnergyJPerM[cell] = n == 0 ? Float.NaN : (float) (energySum / n);
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
