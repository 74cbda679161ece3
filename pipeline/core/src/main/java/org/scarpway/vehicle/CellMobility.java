package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Why a cell is go, slow or no-go for a vehicle: every limit with what was got and what is allowed.
 *
 * @param cls class as in {@link Mobility}
 * @param binding the limit that binds, null where none does
 * @param margin01 as in {@link Mobility}
 * @param headingsPct share of headings allowed
 * @param slopeDeg steepest slope of the cell, NaN where the ground is not known
 * @param soil name of the soil, null where the vehicle drives by its rolling coefficient
 * @param sinkageM deepest wheel straight up the cell's slope, 0 without a soil's sinkage law, NaN
 *     (as the next two) where the soil is not known
 * @param slip of the wheels there, 0 to the largest usable one
 * @param pullN drawbar pull on the level at the largest usable slip; infinite where nothing limits
 *     the thrust
 * @param checks limits that are the same on every heading
 * @param headings the 32 headings, clockwise from north; empty where the ground is not known
 */
public record CellMobility(
    byte cls,
    Limit binding,
    double margin01,
    double headingsPct,
    double slopeDeg,
    String soil,
    double sinkageM,
    double slip,
    double pullN,
    List<Check> checks,
    List<OnHeading> headings) {

  public CellMobility {
    checks = List.copyOf(checks);
    headings = List.copyOf(headings);
  }

  /**
   * Each limit that depends on the heading, on the heading where it is tightest; the earlier one of
   * two that are alike.
   */
  public List<Tightest> tightest() {
    Map<String, Tightest> worst = new LinkedHashMap<>();
    for (OnHeading h : headings) {
      for (Check c : h.checks()) {
        worst.merge(
            c.what(),
            new Tightest(c, h.azimuthDeg()),
            (a, b) -> b.check().use() > a.check().use() ? b : a);
      }
    }
    return new ArrayList<>(worst.values());
  }

  /**
   * What the heading fails: its own limits; where those let it pass and it is closed all the same,
   * the limit of the whole cell that binds. Empty only where the heading is allowed, or where what
   * closes it can be told by the name of {@link #binding} alone.
   */
  public List<Check> exceeded(OnHeading heading) {
    List<Check> own = heading.checks().stream().filter(c -> !c.held()).toList();
    return own.isEmpty() && !heading.allowed()
        ? checks.stream().filter(c -> c.limit() == binding && !c.held()).toList()
        : own;
  }

  /** A limit on the heading where it is tightest. */
  public record Tightest(Check check, double azimuthDeg) {}

  /**
   * One limit. {@code allowed} is the largest value that still passes, NaN where nobody knows it.
   *
   * @param lengthM over which it was measured, NaN where that is of no account
   * @param shown whether the cells show what the limit says
   * @param decides whether what is got counts all the same, as an estimate
   */
  public record Check(
      Limit limit,
      String what,
      double got,
      double allowed,
      String unit,
      double lengthM,
      boolean shown,
      boolean decides) {
    /** Unit of what the ground must give: got is what is needed, allowed what it gives. */
    public static final String CONE_INDEX = "cone index";

    /** Whether it is a question of yes (1) or no (0), with yes not allowed. */
    public boolean yesOrNo() {
      return unit.isEmpty() && allowed == 0 && (got == 0 || got == 1);
    }

    /** Of a limit that the cells show. */
    Check(Limit limit, String what, double got, double allowed, String unit) {
      this(limit, what, got, allowed, unit, Double.NaN, true, true);
    }

    /** Within rounding of the stored ground, or not to be told. */
    public boolean held() {
      return !decides
          || Double.isNaN(allowed)
          || got <= allowed + LimitUse.ROUNDING * Math.abs(allowed);
    }

    /** Share of the allowed value that is taken; infinite where nothing is allowed. */
    public double use() {
      return allowed > 0 ? got / allowed : got > allowed ? Double.POSITIVE_INFINITY : 0;
    }
  }

  /**
   * One heading.
   *
   * @param allowed by its own limits or made good by tacks
   * @param byTacks a limit takes the heading itself; way is made good along it in tacks between
   *     windows on either side of the fall line
   * @param gradeDeg angle of the ground along the heading, uphill positive
   * @param crossDeg angle across it, positive where the ground rises to the right
   * @param slip of the wheels, 0 to 1; 0 without a soil's shear law, NaN where not allowed
   * @param speedMs along the surface, of the way made good; NaN where not allowed
   * @param energyJm per surface metre of it; NaN where not allowed
   */
  public record OnHeading(
      double azimuthDeg,
      boolean allowed,
      boolean byTacks,
      double gradeDeg,
      double crossDeg,
      double slip,
      double speedMs,
      double energyJm,
      List<Check> checks) {
    public OnHeading {
      checks = List.copyOf(checks);
    }
  }
}
