package org.scarpway.vehicle;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.validation.Validation;

/** Ground by its cone index, once and fifty times driven over. */
class ConeIndexCheck {
  private static final String RULE =
      "go where RCI is at least VCI for the passes: VCI defined in Engineer subcourse EN5341, the"
          + " inequality from memory";
  private static final GridSpec SPEC = Grounds.square(3, 5);

  private static Mobility onFlat(double ratingConeIndex, int passes) {
    return onFlat(ratingConeIndex, passes, null, false);
  }

  private static Mobility onFlat(
      double ratingConeIndex, int passes, Double mobilityIndex, boolean tracked) {
    Vehicle v =
        Vehicles.full(4200, 20, 15, 0.3, 5, VehicleParts.soil("fine", null, null, ratingConeIndex));
    Vehicle.Drive d = v.drive();
    Vehicle driven =
        new Vehicle(
            v.name(),
            "",
            v.massKg(),
            v.body(),
            v.wheels(),
            v.limits(),
            v.slowFrom(),
            VehicleParts.drive(
                d.speedMs(),
                d.crawlMs(),
                // Power enough for soft ground under Earth's gravity.
                90_000.0,
                d.efficiency(),
                d.regeneration(),
                d.hotelW(),
                d.rolling(),
                0,
                passes,
                mobilityIndex,
                tracked),
            v.soil(),
            null,
            null);
    try (Workers w = new Workers(1)) {
      return MobilityStage.compute(
          Grounds.plane(SPEC, 0, 0), Grounds.noHazard(SPEC), driven, Body.EARTH, w, Progress.NONE);
    }
  }

  /**
   * @param go whether the ground bears the vehicle that often
   */
  private static void holds(String id, String check, double rci, int passes, boolean go) {
    holds(id, check, onFlat(rci, passes), go);
  }

  private static void holds(String id, String check, Mobility m, boolean go) {
    boolean stopped =
        m.cls().values()[4] == Mobility.NO_GO && m.limit().values()[4] == Limit.TRACTION.code();
    boolean open = m.cls().values()[4] != Mobility.NO_GO && m.field().allowed(4) == -1;
    Validation.holds("5.5-bears-" + id, check, RULE, "M", go ? open : stopped);
  }

  /** Tracked, mobility index 50: published VCI1 16.2950 and VCI50 38.5663, from memory. */
  @Test
  void groundBearsATrackedVehicleOrNot() {
    holds(
        "tracks-1-below",
        "tracks of mobility index 50, one pass, RCI 16.29: no-go",
        onFlat(16.29, 1, 50.0, true),
        false);
    holds(
        "tracks-1-above",
        "tracks of mobility index 50, one pass, RCI 16.30: driven",
        onFlat(16.30, 1, 50.0, true),
        true);
    holds(
        "tracks-50-below",
        "tracks of mobility index 50, 50 passes, RCI 38.56: no-go",
        onFlat(38.56, 50, 50.0, true),
        false);
    holds(
        "tracks-50-above",
        "tracks of mobility index 50, 50 passes, RCI 38.57: driven",
        onFlat(38.57, 50, 50.0, true),
        true);
  }

  @Test
  void groundBearsTheVehicleOrNot() {
    Vehicle v = Vehicles.full();
    double mi =
        ConeIndex.mobilityIndex(
            v.massKg() / v.wheels().axlesM().size(),
            v.wheels().widthM(),
            v.wheels().radiusM(),
            v.body().clearanceM());
    double once = ConeIndex.wheeled1(mi, 1);
    double often = ConeIndex.wheeled50(mi);
    holds("1-below", "one pass, RCI 1 % below VCI1: no-go", once * 0.99, 1, false);
    holds("1-above", "one pass, RCI 1 % above VCI1: driven", once * 1.01, 1, true);
    holds("50-below", "50 passes, RCI 1 % below VCI50: no-go", often * 0.99, 50, false);
    holds("50-above", "50 passes, RCI 1 % above VCI50: driven", often * 1.01, 50, true);
    holds("50-once", "one pass over ground that does not bear 50", often * 0.99, 1, true);
    Validation.holds(
        "5.5-bears-slow",
        "ground that bears one pass but not 50 is slow with one, go from VCI50 on",
        RULE,
        "M",
        onFlat(often * 0.99, 1).cls().values()[4] == Mobility.SLOW
            && onFlat(often * 1.01, 1).cls().values()[4] == Mobility.GO
            && onFlat(often * 1.01, 50).cls().values()[4] == Mobility.GO);
  }
}
