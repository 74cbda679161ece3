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

  /**
   * True if the worst of all soils is used where the soil is unknown; otherwise there is no verdict
   * there.
   */
  final boolean worstIfUnknown;

  /**
   * @param soils soil of each cell; null if the vehicle's own soil is everywhere
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

  /** Index of ground whose soil is unknown, -1 if there are no soils by place. */
  int unknown() {
    return unknown;
  }

  /** Index of cells in which soils meet, -1 if there are no soils by place. */
  int several() {
    return several;
  }

  /** True if the index stands for a single soil. */
  boolean single(int index) {
    return index != unknown && index != several;
  }

  /** True if the worst value of all soils is used on ground of that index. */
  boolean worstOfAll(int index) {
    return index >= 0 && (index == several || (index == unknown && worstIfUnknown));
  }

  int count() {
    return limits.length;
  }

  /**
   * Limits on the soil of that index; those on the vehicle's own soil if the index is not a single
   * soil.
   */
  MoveLimits of(int index) {
    return limits[index];
  }

  /** Table index per cell; null if there is one table. */
  byte[] soilOf() {
    return soilAt;
  }

  /**
   * One table per index; for an index that is not a single soil, the lowest speed and highest
   * energy of all.
   */
  GradeTable[] tables() {
    return tables.clone();
  }
}
