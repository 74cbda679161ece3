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
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, new Soil("fine", null, null, ratingConeIndex));
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
            new Vehicle.Drive(
                d.speedMs(),
                d.crawlMs(),
                d.powerW(),
                d.efficiency(),
                d.regeneration(),
                d.hotelW(),
                d.rolling(),
                0,
                passes),
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
    Mobility m = onFlat(rci, passes);
    boolean stopped =
        m.cls().values()[4] == Mobility.NO_GO && m.limit().values()[4] == Limit.TRACTION.code();
    boolean open = m.cls().values()[4] != Mobility.NO_GO && m.field().allowed(4) == -1;
    Validation.holds("5.5-bears-" + id, check, RULE, "M", go ? open : stopped);
  }

  @Test
  void groundBearsTheVehicleOrNot() {
    Vehicle v = Vehicles.full();
    double mi =
        ConeIndex.mobilityIndex(
            v.massKg(),
            v.wheels().axlesM().size(),
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
