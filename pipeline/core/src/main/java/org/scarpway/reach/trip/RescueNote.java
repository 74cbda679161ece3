package org.scarpway.reach.trip;

import java.util.Locale;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.vehicle.Vehicle;

/** Says what a reach answer counts for taking a crew aboard another vehicle. */
final class RescueNote {
  private RescueNote() {}

  /** The note on the times and loads assumed for taking a crew aboard another vehicle. */
  static String of(HomeRule home, Rescue rescue, Vehicle vehicle) {
    double kg = vehicle.crew().seats() * rescue.personKg();
    String load =
        vehicle.massKg() == null
            ? "; its load is not counted, since vehicle '" + vehicle.name() + "' gives no mass"
            : String.format(Locale.ROOT, ", driven with %.0f kg more (slopes, speed, energy)", kg);
    return home == HomeRule.PAIR
        ? String.format(
            Locale.ROOT,
            "pair counts %.0f min to change vehicles and the way home in the other%s",
            rescue.transferS() / 60,
            rescue.second().isEmpty() ? load : unlike(vehicle, rescue.second()))
        : String.format(
            Locale.ROOT,
            "base-rescue counts %.0f min of alarm, the way out, %.0f min to load and the way home%s;"
                + " both crews use the life support of the vehicle that comes from loading on",
            rescue.alarmS() / 60,
            rescue.loadS() / 60,
            load);
  }

  private static String unlike(Vehicle first, String second) {
    return ", whichever of '"
        + first.name()
        + "' and '"
        + second
        + "' that is: both drive every way, open to both, loaded and not, no faster than the slower"
        + " of them, and energy is that of the one with less to spare in proportion to its limit";
  }
}
