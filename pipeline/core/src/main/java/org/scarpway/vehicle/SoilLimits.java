package org.scarpway.vehicle;

import org.scarpway.grid.Body;

/**
 * The limits of one vehicle on every soil of the ground: index 0 is the soil of its own file; the
 * last two, where soils lie by place, are ground whose soil is not known and cells of several.
 */
final class SoilLimits {
  private final MoveLimits[] limits;
  private final GradeTable[] tables;
  private final byte[] soilAt;
  private final int unknown;
  private final int several;

  /** Whether all soils count at once where the soil is not known; otherwise there is no verdict. */
  final boolean worstIfUnknown;

  /**
   * @param soils null where the ground has no soils of its own
   */
  SoilLimits(Vehicle vehicle, SoilMap soils, Body body) {
    boolean apply = soils != null && SoilMap.bearsOn(vehicle);
    soilAt = apply ? soils.soilAt().values() : null;
    unknown = apply ? SoilMap.unknownIndex(soils.soils().size()) : -1;
    several = apply ? SoilMap.severalIndex(soils.soils().size()) : -1;
    worstIfUnknown = apply && soils.unknown() == SoilMap.Unknown.WORST;
    limits = new MoveLimits[apply ? several + 1 : 1];
    tables = new GradeTable[limits.length];
    for (int i = 0; i < limits.length; i++) {
      limits[i] =
          !single(i)
              ? limits[0]
              : i == 0
                  ? new MoveLimits(vehicle, body)
                  : new MoveLimits(soils.on(i, vehicle), body, limits[0].model.sinkageM(0));
      tables[i] = limits[i].table;
    }
    if (apply) {
      for (int i = 1; i < unknown; i++) {
        tables[unknown] = tables[unknown].worse(tables[i]);
      }
      tables[several] = tables[unknown];
    }
  }

  /** Index of the soil in a cell. */
  int at(int cell) {
    return soilAt == null ? 0 : soilAt[cell];
  }

  /** Index of ground whose soil is not known, -1 where there is none such. */
  int unknown() {
    return unknown;
  }

  /** Index of cells in which soils meet, -1 where there are none such. */
  int several() {
    return several;
  }

  /** Whether that is the index of one soil. */
  boolean single(int index) {
    return index != unknown && index != several;
  }

  /** Whether all soils count at once on ground of that index, the worst of each figure. */
  boolean worstOfAll(int index) {
    return index >= 0 && (index == several || (index == unknown && worstIfUnknown));
  }

  int count() {
    return limits.length;
  }

  /** Where that is not one soil, those on the vehicle's own. */
  MoveLimits of(int index) {
    return limits[index];
  }

  /** Per cell the index of its table; null where there is one. */
  byte[] ground() {
    return soilAt;
  }

  /** Where that is not one soil, the slowest and dearest of all. */
  GradeTable[] tables() {
    return tables.clone();
  }
}
