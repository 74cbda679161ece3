package org.scarpway.report;

import org.scarpway.terrain.Lengths;
import org.scarpway.vehicle.RampAngles;
import org.scarpway.vehicle.TipOver;
import org.scarpway.vehicle.Vehicle;

/**
 * The table of the limits that applied to a vehicle, with the length over which the ground was
 * measured for each.
 */
final class LimitsInEffect {
  private LimitsInEffect() {}

  /**
   * @param over lengths (m) over which the ground was measured, null if unknown
   * @param soilKnown false if no wheel slips or sinks, since no soil is known anywhere
   */
  static TableView table(Vehicle v, Lengths over, boolean soilKnown) {
    TableView table =
        new TableView("Limits in effect, " + v.name(), "limit", "allowed", "measured over");
    if (v.limits() != null) {
      allowed(
          table, "climb slope", v.limits().climbDeg(), "deg", over == null ? null : over.slopeM());
      allowed(
          table,
          "descent slope",
          v.limits().descendDeg(),
          "deg",
          over == null ? null : over.slopeM());
      allowed(
          table, "side slope", v.limits().sideDeg(), "deg", over == null ? null : over.slopeM());
      allowed(
          table,
          "step height",
          v.limits().stepM(),
          "m",
          over == null ? null : over.step().shortestM());
      allowed(table, "tip-over margin", v.limits().tipMarginDeg(), "deg", null);
    }
    if (v.drive().sight() != null) {
      allowed(table, "stopping sight", v.drive().sight().sightM(), "m", null);
    }
    if (v.slowFrom() != null) {
      allowed(
          table,
          "roughness, slow from",
          v.slowFrom().roughnessM(),
          "m",
          over == null ? null : over.roughness().givenM());
      if (soilKnown) {
        allowed(table, "wheel slip, slow from", v.slowFrom().slipPct(), "%", null);
        allowed(table, "wheel sinkage, slow from", v.slowFrom().sinkageM(), "m", null);
      }
      allowed(table, "loss of speed, slow from", v.slowFrom().speedLossPct(), "%", null);
    }
    if (v.body() != null) {
      allowed(
          table,
          "belly clearance",
          v.body().clearanceM(),
          "m",
          over == null ? null : over.convexityM());
      allowed(table, "width", v.body().widthM(), "m", null);
    }
    if (v.body() != null && v.wheels() != null) {
      double clearanceM = v.body().clearanceM();
      double gapM = v.wheels().widestGapM();
      table.row(
          "ramp breakover angle",
          Figures.sig(RampAngles.breakoverDeg(clearanceM, gapM, v.wheels().radiusM())) + " deg",
          "");
      table.row(
          "round crest that grounds the belly",
          "radius below " + Figures.sig(RampAngles.crestRadiusM(clearanceM, gapM)) + " m",
          "");
    }
    if (v.body() != null && v.wheels() != null && v.body().cgHeightM() != null) {
      TipOver tip = TipOver.of(v.wheels(), v.body().cgHeightM());
      table.row("static tip-over sideways", Figures.sig(tip.slopeDeg(90)) + " deg", "");
      table.row(
          "static tip-over backwards, forwards",
          Figures.sig(tip.slopeDeg(0)) + ", " + Figures.sig(tip.slopeDeg(180)) + " deg",
          "");
    }
    if (v.drive() != null) {
      allowed(table, "rated speed", v.drive().speedMs(), "m/s", null);
    }
    return table;
  }

  private static void allowed(
      TableView table, String what, Double value, String unit, Double overM) {
    if (value != null) {
      table.row(
          what, Figures.plain(value) + " " + unit, overM == null ? "" : Figures.sig(overM) + " m");
    }
  }
}
