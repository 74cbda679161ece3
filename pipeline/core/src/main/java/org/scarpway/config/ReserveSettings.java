package org.scarpway.config;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.reach.question.Reserves;
import org.scarpway.vehicle.Vehicle;

/**
 * The reserve kept of each limit, by vehicle: as stated in the job, else in the vehicle's file,
 * else the usual share. Each is recorded as a setting in effect, with its origin.
 */
final class ReserveSettings {
  private static final List<String> KEYS =
      List.of("time_pct", "life_support_pct", "energy_pct", "distance_pct");

  private final Map<String, Reserves> known = new HashMap<>();

  /**
   * @param ofJob the reserves entry of the job
   */
  ReserveSettings(Entry ofJob, List<Vehicle> vehicles, Reading reading) {
    for (Vehicle v : vehicles) {
      known.put(v.name(), of(v.name(), ofJob, reading));
    }
  }

  private static Reserves of(String vehicle, Entry ofJob, Reading reading) {
    double[] pct = new double[KEYS.size()];
    for (int i = 0; i < pct.length; i++) {
      String key = KEYS.get(i);
      Entry used = ofJob.has(key) ? ofJob.get(key) : reading.reserves.get(vehicle).get(key);
      pct[i] = used.present() ? used.number() : Reserves.USUAL_PCT;
      reading.settings.add(
          "vehicle." + vehicle + ".reserves." + key,
          used.present() ? used.text() : Integer.toString((int) Reserves.USUAL_PCT),
          used.present() ? used.doc().origin(used.pointer()) : "default");
    }
    return new Reserves(pct[0], pct[1], pct[2], pct[3]);
  }

  /**
   * @param vehicle null if it is unknown, which is reported elsewhere
   */
  Reserves of(Vehicle vehicle) {
    return vehicle == null ? Reserves.NONE : known.get(vehicle.name());
  }
}
