package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.scarpway.stage.Digits;
import org.scarpway.terrain.Lengths;
import org.scarpway.terrain.Terrain;

/**
 * The limits of a vehicle that the cells of a terrain resolve. A limit refers to a baseline of the
 * vehicle, such as its wheelbase, and a value measured over a much longer baseline is no evidence
 * that the limit holds. Slopes, crests and breaks in slope are smaller over longer baselines, so
 * they must be measured over about the vehicle's own; steps and roughness are larger. Ground that
 * is measured as too steep remains closed, and steps and belly contact still count against the
 * ground.
 */
final class Resolution {
  /** Limits in the order of the report, those with the same baseline next to each other. */
  private static final List<Limit> TOLD =
      List.of(
          Limit.CLIMB,
          Limit.DESCEND,
          Limit.SIGHT,
          Limit.SIDE,
          Limit.TIP,
          Limit.TRACTION,
          Limit.POWER,
          Limit.STEP,
          Limit.CLEARANCE,
          Limit.APPROACH,
          Limit.ROUGHNESS);

  private final Lengths lengths;
  private final UnresolvedRule rule;
  private final double footprintM;
  private final double spacingM;
  private final double wheelbaseM;
  private final double trackM;
  private final List<Limit> unresolved = new ArrayList<>();

  /** True if roughness limits the speed. */
  final boolean roughnessDecides;

  /**
   * @param posed true if the pose of the vehicle is computed on the cells
   */
  Resolution(MoveLimits limits, Terrain terrain, boolean posed, UnresolvedRule rule) {
    this.rule = rule;
    lengths = terrain.lengths();
    Vehicle.Chassis body = limits.vehicle().body();
    Vehicle.Wheels wheels = limits.vehicle().wheels();
    wheelbaseM = wheels != null ? wheels.wheelbaseM() : body != null ? body.lengthM() : 0;
    trackM = wheels != null ? wheels.widestTrackM() : body != null ? body.widthM() : 0;
    spacingM = Math.min(wheelbaseM, trackM);
    footprintM =
        body != null ? Math.hypot(body.lengthM(), body.widthM()) : Math.hypot(wheelbaseM, trackM);
    // Ground constructed without a baseline is assumed to be given at the vehicle's own scale.
    boolean known = lengths != null;
    roughnessDecides = !known || lengths.roughness().decides(footprintM);
    if (!known) {
      return;
    }
    if (!posed) {
      addSlopes(limits);
    }
    if (limits.needsStep()
        && (IsotropicLimits.stepExtrapolatedTooFar(terrain) || !lengths.step().shows(spacingM))) {
      unresolved.add(Limit.STEP);
    }
    if (limits.needsConvexity() && !posed && !Lengths.atLength(lengths.convexityM(), wheelbaseM)) {
      unresolved.add(Limit.CLEARANCE);
    }
    if (limits.trough < Double.POSITIVE_INFINITY
        && !posed
        && !Lengths.atLength(lengths.breakM(), wheelbaseM)) {
      unresolved.add(Limit.APPROACH);
    }
    if (limits.needsRoughness() && !lengths.roughness().shows(footprintM)) {
      unresolved.add(Limit.ROUGHNESS);
    }
  }

  private void addSlopes(MoveLimits limits) {
    addSlope(Limit.CLIMB, limits.climb);
    addSlope(Limit.DESCEND, limits.ratedDescend);
    addSlope(Limit.SIGHT, Math.min(limits.stopped, limits.stoppedUp));
    addSlope(Limit.SIDE, limits.side);
    addSlope(Limit.TIP, limits.tip.known() ? 1 : Double.POSITIVE_INFINITY);
    addSlope(Limit.TRACTION, Math.min(limits.tractionUp, limits.tractionDown));
    addSlope(Limit.POWER, limits.power);
  }

  private void addSlope(Limit limit, double allowed) {
    if (allowed < Double.POSITIVE_INFINITY && !Lengths.atLength(lengths.slopeM(), meantM(limit))) {
      unresolved.add(limit);
    }
  }

  boolean complete() {
    return unresolved.isEmpty();
  }

  boolean shows(Limit limit) {
    return !unresolved.contains(limit);
  }

  boolean shuts() {
    return rule == UnresolvedRule.NO_GO && !complete();
  }

  boolean slows() {
    return rule == UnresolvedRule.SLOW && !complete();
  }

  /** Adds the limits that are not resolved on another soil. */
  void add(Resolution onAnotherSoil) {
    for (Limit limit : onAnotherSoil.unresolved) {
      if (shows(limit)) {
        unresolved.add(limit);
      }
    }
    unresolved.sort(Comparator.comparingInt(TOLD::indexOf));
  }

  /** Baseline (m) over which the cells measure a limit; NaN if unknown or irrelevant. */
  double lengthM(Limit limit) {
    if (lengths == null) {
      return Double.NaN;
    }
    return switch (limit) {
      case CLIMB, DESCEND, SIDE, TIP, TRACTION, POWER, SIGHT -> lengths.slopeM();
      case STEP -> lengths.step().shortestM();
      case CLEARANCE -> lengths.convexityM();
      case APPROACH -> lengths.breakM();
      case ROUGHNESS -> lengths.roughness().givenM();
      default -> Double.NaN;
    };
  }

  private double meantM(Limit limit) {
    return switch (limit) {
      case STEP, TIP -> spacingM;
      case SIDE -> trackM;
      case ROUGHNESS -> footprintM;
      default -> wheelbaseM;
    };
  }

  /**
   * Summarises the unresolved limits; null if the cells resolve every limit.
   *
   * @param open cells with a verdict that no limit closes
   * @param halfUsed cells among these on which more than half of an unresolved limit is used
   * @param judged cells with a verdict
   */
  Unresolved tell(long open, long halfUsed, long judged) {
    if (complete() || judged == 0) {
      return null;
    }
    double pct = 100.0 * open / judged;
    double usedPct = 100.0 * halfUsed / judged;
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < unresolved.size(); i++) {
      Limit limit = unresolved.get(i);
      text.append(text.isEmpty() ? "" : ", ").append(limit.label());
      boolean more = i + 1 < unresolved.size();
      // Limits with the same baseline share one phrase.
      if (!more || !lengths(limit).equals(lengths(unresolved.get(i + 1)))) {
        text.append(lengths(limit));
      }
    }
    text.append(
        String.format(
            Locale.ROOT,
            " not resolved by the cells on %.1f %% of the ground (on %.1f %% such a limit is the"
                + " tightest and more than half used as measured): ",
            pct,
            usedPct));
    text.append(
        switch (rule) {
          case SAY ->
              "class and speed there are what the other limits leave, and the ground may be worse.";
          case SLOW -> "slow there at best, at crawl speed (terrain.unresolved).";
          case NO_GO -> "no-go there (terrain.unresolved).";
        });
    text.setCharAt(0, Character.toUpperCase(text.charAt(0)));
    return new Unresolved(unresolved, pct, usedPct, text.toString());
  }

  private String lengths(Limit limit) {
    return Digits.text(" (shown over %s m, meant for %s m", lengthM(limit), meantM(limit))
        + (limit == Limit.ROUGHNESS && !roughnessDecides
            ? "; neither slows nor counts as fine)"
            : ")");
  }
}
