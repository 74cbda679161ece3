package org.scarpway.vehicle;

import java.util.List;
import org.scarpway.grid.ByteGrid;

/**
 * Which soil lies where. A vehicle without mass or wheels has no use for it and drives as its own
 * file says.
 *
 * @param soils the soils on the ground, each under a name of its own, at most {@value #MOST}
 * @param soilAt per cell 0 for the soil of the vehicle's own file, i for {@code soils.get(i - 1)},
 *     {@link #unknownIndex} where nobody knows, or {@link #severalIndex} where soils meet in the
 *     cell: all soils of the job count there at once, the worst of each figure
 * @param unknown what becomes of ground whose soil is not known
 */
public record SoilMap(List<Soil> soils, ByteGrid soilAt, Unknown unknown) {
  /** What a cell's byte can tell apart. */
  public static final int MOST = 100;

  /** What becomes of ground whose soil is not known. */
  public enum Unknown {
    /** There is no verdict. */
    NO_VERDICT,
    /** All soils of the job count at once, the vehicle's own too: the worst of each figure. */
    WORST
  }

  public SoilMap {
    soils = List.copyOf(soils);
    if (soils.size() > MOST) {
      throw new IllegalArgumentException("a soil map holds at most " + MOST + " soils");
    }
  }

  /** No verdict where the soil is not known. */
  public SoilMap(List<Soil> soils, ByteGrid soilAt) {
    this(soils, soilAt, Unknown.NO_VERDICT);
  }

  /** What stands in a cell whose soil is not known, with so many soils. */
  public static byte unknownIndex(int soils) {
    return (byte) (soils + 1);
  }

  /** What stands in a cell in which soils meet, with so many soils. */
  public static byte severalIndex(int soils) {
    return (byte) (soils + 2);
  }

  /** Whether soils by place change how the vehicle drives. */
  public static boolean bearsOn(Vehicle v) {
    return v.massKg() != null && v.wheels() != null;
  }

  /**
   * Whether wheels that sink so deep on the level leave half of clearance and step. Among rocks the
   * vehicle is taken to sink as deep as on the deepest soil by place that does; ground softer than
   * that, and than its own, is closed to it where there are any rocks.
   */
  public static boolean leavesHalf(Vehicle v, double sinkageM) {
    Double stepM = v.limits() == null ? null : v.limits().stepM();
    double clearanceM = v.body().clearanceM();
    return sinkageM < 0.5 * (stepM == null ? clearanceM : Math.min(clearanceM, stepM));
  }

  /** The vehicle as it is on soil i of the map. */
  Vehicle on(int i, Vehicle v) {
    return i == 0 ? v : v.withSoil(soils.get(i - 1));
  }
}
