package org.scarpway.vehicle;

import java.util.List;
import org.scarpway.grid.ByteGrid;

/**
 * Which soil lies where. A vehicle without mass or wheels has no use for it and drives as its own
 * file says.
 *
 * @param soils the soils on the ground, each under a name of its own, at most {@value #MOST}
 * @param soilAt per cell 0 for the soil of the vehicle's own file, or i for {@code soils.get(i -
 *     1)}
 */
public record SoilMap(List<Soil> soils, ByteGrid soilAt) {
  /** What a cell's byte can tell apart. */
  public static final int MOST = 100;

  public SoilMap {
    soils = List.copyOf(soils);
    if (soils.size() > MOST) {
      throw new IllegalArgumentException("a soil map holds at most " + MOST + " soils");
    }
  }

  /** Whether soils by place change how the vehicle drives. */
  public static boolean bearsOn(Vehicle v) {
    return v.massKg() != null && v.wheels() != null;
  }

  /** The vehicle as it is on soil i of the map. */
  Vehicle on(int i, Vehicle v) {
    return i == 0 ? v : v.withSoil(soils.get(i - 1));
  }
}
