package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Warning about {@code slow_from} thresholds that have no effect because no soil is known at all.
 */
public final class SlowWithoutSoil {
  private SlowWithoutSoil() {}

  /**
   * @param soilsByPlace true if the job has soils besides that of the vehicle's file
   */
  public static Optional<String> note(Vehicle vehicle, boolean soilsByPlace) {
    Vehicle.SlowFrom slow = vehicle.slowFrom();
    if (slow == null || vehicle.soil() != null || soilsByPlace) {
      return Optional.empty();
    }
    List<String> idle = new ArrayList<>();
    if (slow.slipPct() != null) {
      idle.add("slow_from.slip_pct");
    }
    if (slow.sinkageM() != null) {
      idle.add("slow_from.sinkage_m");
    }
    return idle.isEmpty()
        ? Optional.empty()
        : Optional.of(
            vehicle.name()
                + ": "
                + String.join(" and ", idle)
                + " slow nothing here, for want of a soil: no wheel slips or sinks. Name the soil in"
                + " the vehicle file or under soils of the job.");
  }
}
