package org.scarpway.vehicle;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Reports the limits that are not applied because the vehicle file lacks the data for them. A
 * reader of the maps must not mistake an unchecked limit for one that holds.
 */
public final class UncheckedLimits {
  private final Set<String> absent = new LinkedHashSet<>();
  private final Set<String> unchecked = new LinkedHashSet<>();

  private UncheckedLimits() {}

  /**
   * Returns one line; empty if the file states everything.
   *
   * @param soilsByPlace true if the job has soils by place
   */
  public static Optional<String> note(Vehicle v, boolean soilsByPlace) {
    UncheckedLimits u = new UncheckedLimits();
    Vehicle.Limits limits = v.limits();
    u.need("limits.climb_deg", limits == null ? null : limits.climbDeg(), "climb");
    u.need("limits.descend_deg", limits == null ? null : limits.descendDeg(), "descent");
    u.need("limits.side_deg", limits == null ? null : limits.sideDeg(), "side slope");
    u.need("limits.step_m", limits == null ? null : limits.stepM(), "step");
    u.need("wheels", v.wheels(), "tip-over", "belly", "overhangs");
    u.need("body.cg_height_m", v.body().cgHeightM(), "tip-over");
    u.need("body.front_overhang_m", v.body().frontOverhangM(), "overhangs");
    u.need("body.rear_overhang_m", v.body().rearOverhangM(), "overhangs");
    boolean byPlace = soilsByPlace && SoilMap.bearsOn(v);
    boolean grips =
        v.soil() != null && (v.soil().shear() != null || v.soil().ratingConeIndex() != null);
    u.need("soil", byPlace || grips ? v : null, "traction");
    u.need("mass_kg", v.massKg(), "power", "energy");
    u.need("drive.power_w", v.drive().powerW(), "power");
    u.need("drive.crawl_ms", v.drive().crawlMs(), "power");
    u.need("battery_kwh", v.batteryKwh(), "energy");
    return u.absent.isEmpty()
        ? Optional.empty()
        : Optional.of(
            v.name()
                + " states no "
                + String.join(", ", u.absent)
                + ": not checked for want of them: "
                + String.join(", ", u.unchecked)
                + '.');
  }

  private void need(String key, Object stated, String... limits) {
    if (stated == null) {
      absent.add(key);
      unchecked.addAll(List.of(limits));
    }
  }
}
