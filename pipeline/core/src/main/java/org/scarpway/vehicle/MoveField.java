package org.scarpway.vehicle;

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
  private final int[] allowed;
  private final float[] gradEast;
  private final float[] gradNorth;
  private final float[] speedCapMs;
  private final float[] detour;
  private final TackWays tacks;
  private final byte[] ground;
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
    int n = spec.cells();
    if (allowed.length != n
        || gradEast.length != n
        || gradNorth.length != n
        || speedCapMs.length != n
        || (detour != null && detour.length != n)
        || ground.length != n) {
      throw new IllegalArgumentException(
          "every array must hold one value for each of the " + n + " cells");
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
    return allowed[cell];
  }

  public boolean allows(int cell, int heading) {
    return (allowed[cell] >>> heading & 1) != 0;
  }

  /** Rise over run towards the east. */
  public float gradEast(int cell) {
    return gradEast[cell];
  }

  /** Rise over run towards the north. */
  public float gradNorth(int cell) {
    return gradNorth[cell];
  }

  /** Upper bound on the speed along the surface (m/s). */
  public float speedCapMs(int cell) {
    return speedCapMs[cell];
  }

  /** Index of the cell's table. */
  public int ground(int cell) {
    return ground[cell];
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
    int[] kept = new int[allowed.length];
    for (int i = domain.nextSetBit(0); i >= 0; i = domain.nextSetBit(i + 1)) {
      kept[i] = allowed[i];
    }
    return new MoveField(
        spec, kept, gradEast, gradNorth, speedCapMs, detour, tacks, ground, tables);
  }

  /** Rise over run along the heading. */
  public double grade(int cell, int heading) {
    return gradEast[cell] * east[heading] + gradNorth[cell] * north[heading];
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
    return detour == null ? 1 : detour[cell];
  }

  /** Seconds per plan metre; infinite where the heading is not allowed. */
  public double timeSPerM(int cell, int heading) {
    if (!allows(cell, heading)) {
      return Double.POSITIVE_INFINITY;
    }
    double g = grade(cell, heading);
    double speed = Math.min(speedCapMs[cell], tables[ground[cell]].speedMs(g));
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
    GradeTable t = tables[ground[cell]];
    double surplus = (way(cell, heading) - 1) * t.tractionJPerM(0);
    return (t.tractionJPerM(g) + surplus) * Math.sqrt(1 + g * g) + t.hotelW() * time;
  }

  /**
   * Means over the allowed headings of speed (m/s, plan metres without detours) and energy (J per
   * surface metre) of one cell; NaN where no heading is allowed.
   */
  void fillMeans(int cell, float[] meanSpeedMs, float[] meanEnergyJPerM) {
    int bits = allowed[cell];
    if (bits == 0) {
      meanSpeedMs[cell] = Float.NaN;
      meanEnergyJPerM[cell] = Float.NaN;
      return;
    }
    GradeTable t = tables[ground[cell]];
    double capMs = speedCapMs[cell];
    double ge = gradEast[cell];
    double gn = gradNorth[cell];
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
