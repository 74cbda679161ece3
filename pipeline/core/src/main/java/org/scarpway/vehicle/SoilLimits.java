package org.scarpway.vehicle;

import org.scarpway.grid.Body;

/** The limits of one vehicle on every soil of the ground: index 0 is the soil of its own file. */
final class SoilLimits {
  private final MoveLimits[] limits;
  private final byte[] soilAt;

  /**
   * @param soils null where the ground has no soils of its own
   */
  SoilLimits(Vehicle vehicle, SoilMap soils, Body body) {
    boolean apply = soils != null && SoilMap.bearsOn(vehicle);
    soilAt = apply ? soils.soilAt().values() : null;
    limits = new MoveLimits[apply ? 1 + soils.soils().size() : 1];
    for (int i = 0; i < limits.length; i++) {
      limits[i] = new MoveLimits(apply ? soils.on(i, vehicle) : vehicle, body);
    }
  }

  /** Index of the soil in a cell. */
  int at(int cell) {
    return soilAt == null ? 0 : soilAt[cell];
  }

  int count() {
    return limits.length;
  }

  MoveLimits of(int index) {
    return limits[index];
  }

  /** Per cell the index of its table; null where there is one. */
  byte[] ground() {
    return soilAt;
  }

  GradeTable[] tables() {
    GradeTable[] tables = new GradeTable[limits.length];
    for (int i = 0; i < tables.length; i++) {
      tables[i] = limits[i].table;
    }
    return tables;
  }
}
