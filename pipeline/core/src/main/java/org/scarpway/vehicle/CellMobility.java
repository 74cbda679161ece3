package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Explanation of the verdict on one cell (go, slow or no-go): every limit with the value found and
 * the value allowed.
 *
 * @param cls class as in {@link Mobility}
 * @param binding the binding limit, null if none binds
 * @param margin01 as in {@link Mobility}
 * @param headingsPct share of headings allowed, 0 to 100
 * @param slopeDeg steepest slope of the cell, NaN where the ground is unknown
 * @param soil name of the soil, null where the vehicle drives by its rolling coefficient
 * @param sinkageM sinkage of the deepest wheel on the direct climb of the cell's slope, 0 without a
 *     sinkage law of the soil, NaN where the soil is unknown
 * @param slip wheel slip on the same climb, 0 to the largest usable slip; NaN where the soil is
 *     unknown
 * @param pullN drawbar pull on the level at the largest usable slip; infinite if nothing limits the
 *     thrust, NaN where the soil is unknown
 * @param checks limits that do not depend on the heading
 * @param headings results for the 32 headings, clockwise from north; empty where the ground is
 *     unknown
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
   * Returns each heading-dependent limit on the heading where it is tightest; of two equal ones,
   * the first.
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
   * Returns the checks that close a heading: the exceeded limits of the heading itself or, if none
   * of these is exceeded, the binding limit of the whole cell. Empty only if the heading is
   * allowed, or if the name {@link #binding} is all there is to report about the cause.
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
   * One limit. {@code allowed} is the largest value that still passes, NaN if unknown.
   *
   * @param lengthM baseline over which the value was measured, NaN where it does not matter
   * @param shown true if the cells resolve the quantity that the limit is about
   * @param decides true if the value counts even so, as an estimate
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
    /**
     * Unit of cone index checks, where got is the index that is needed and allowed the index of the
     * ground.
     */
    public static final String CONE_INDEX = "cone index";

    /** Unit of checks of the probability that a limit is broken, with the one that is allowed. */
    public static final String PROBABILITY = "probability";

    /** True if the check is a yes (1) or no (0) question, where yes is not allowed. */
    public boolean yesOrNo() {
      return unit.isEmpty() && allowed == 0 && (got == 0 || got == 1);
    }

    /** Creates the check of a limit that the cells resolve. */
    Check(Limit limit, String what, double got, double allowed, String unit) {
      this(limit, what, got, allowed, unit, Double.NaN, true, true);
    }

    /** True if the limit holds, to within rounding of the stored ground, or cannot be evaluated. */
    public boolean held() {
      return !decides
          || Double.isNaN(allowed)
          || got <= allowed + LimitUse.ROUNDING * Math.abs(allowed);
    }

    /** Used share of the allowed value; infinite if nothing is allowed. */
    public double use() {
      return allowed > 0 ? got / allowed : got > allowed ? Double.POSITIVE_INFINITY : 0;
    }
  }

  /**
   * The result for one heading.
   *
   * @param allowed true if its own limits allow it or it is opened by tacks
   * @param byTacks true if a limit closes the heading itself, but the vehicle advances along it by
   *     tacking between open windows on either side of the fall line
   * @param gradeDeg angle of the ground along the heading, uphill positive
   * @param crossDeg angle across it, positive where the ground rises to the right
   * @param slip wheel slip, 0 to 1; 0 without a shear law of the soil, NaN where not allowed
   * @param speedMs speed of advance along the heading on the surface; NaN where not allowed
   * @param energyJm energy per surface metre of that advance; NaN where not allowed
   * @param bySight true if the speed is the one from which the vehicle stops within sight
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
      boolean bySight,
      List<Check> checks) {
    public OnHeading {
      checks = List.copyOf(checks);
    }
  }
}
