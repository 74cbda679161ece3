package org.scarpway.vehicle;

import java.util.List;
import org.scarpway.grid.ByteGrid;

/**
 * Map of soils. A vehicle without mass or wheels ignores it and drives as its own file says.
 *
 * @param soils soils on the ground, with distinct names, at most {@value #MOST}
 * @param soilAt per cell: 0 for the soil of the vehicle's own file, i for {@code soils.get(i - 1)},
 *     {@link #unknownIndex} where the soil is unknown, or {@link #severalIndex} where soils meet in
 *     the cell, which is evaluated with the worst value of all soils of the job
 * @param unknown treatment of ground whose soil is unknown
 */
public record SoilMap(List<Soil> soils, ByteGrid soilAt, Unknown unknown) {
  /** Maximum number of soils, so that an index fits in a byte. */
  public static final int MOST = 100;

  /** Treatment of ground whose soil is unknown. */
  public enum Unknown {
    /** There is no verdict. */
    NO_VERDICT,
    /** The worst value of all soils of the job is used, including the vehicle's own soil. */
    WORST
  }

  public SoilMap {
    soils = List.copyOf(soils);
    if (soils.size() > MOST) {
      throw new IllegalArgumentException("a soil map holds at most " + MOST + " soils");
    }
  }

  /** Creates a map with no verdict where the soil is unknown. */
  public SoilMap(List<Soil> soils, ByteGrid soilAt) {
    this(soils, soilAt, Unknown.NO_VERDICT);
  }

  /** Index of a cell whose soil is unknown, given the number of soils. */
  public static byte unknownIndex(int soils) {
    return (byte) (soils + 1);
  }

  /** Index of a cell in which soils meet, given the number of soils. */
  public static byte severalIndex(int soils) {
    return (byte) (soils + 2);
  }

  /** True if soils by place affect the vehicle. */
  public static boolean bearsOn(Vehicle v) {
    return v.massKg() != null && v.wheels() != null;
  }

  /**
   * True if this sinkage on level ground leaves half of clearance and step height. The rock check
   * assumes the deepest sinkage among the soils by place that do so; ground that is softer than
   * that, and softer than the vehicle's own soil, is closed where there are any rocks.
   */
  public static boolean leavesHalf(Vehicle v, double sinkageM) {
    Double stepM = v.limits() == null ? null : v.limits().stepM();
    double clearanceM = v.body().clearanceM();
    return sinkageM < 0.5 * (stepM == null ? clearanceM : Math.min(clearanceM, stepM));
  }

  /** Returns the vehicle on soil i of the map. */
  Vehicle on(int i, Vehicle v) {
    return i == 0 ? v : v.withSoil(soils.get(i - 1));
  }
}
