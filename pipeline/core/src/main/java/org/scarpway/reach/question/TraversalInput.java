package org.scarpway.reach.question;

import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;

/**
 * Input layers of one vehicle on one grid.
 *
 * @param vehicle the vehicle that the layers hold for; its crew and battery limit the trips
 * @param field cost of each cell and heading
 * @param limit code of the binding {@link org.scarpway.vehicle.Limit}, for messages; null if it is
 *     not in memory
 * @param heightM elevation (m)
 * @param margin01 margin left to the binding limit, 0 to 1; null if no request needs it
 * @param hazard01 hazard, 0 to 1; null if no request needs it
 * @param loaded the vehicle's field with another crew aboard; null if no request needs it
 */
public record TraversalInput(
    Vehicle vehicle,
    TraversalCost field,
    ByteGrid limit,
    Floats heightM,
    Floats margin01,
    Floats hazard01,
    TraversalCost loaded) {
  /**
   * Checks that all layers have one value per cell.
   *
   * @throws IllegalArgumentException if a layer has another number of cells than the field
   */
  public TraversalInput {
    int cells = field.spec().cells();
    if (heightM.size() != cells
        || (margin01 != null && margin01.size() != cells)
        || (hazard01 != null && hazard01.size() != cells)) {
      throw new IllegalArgumentException("heights, margins, hazard and mobility must share cells");
    }
  }

  /**
   * Returns these layers with the field for coming home with another crew aboard.
   *
   * @param withLoad from {@link TraversalCost#withLoad}
   */
  public TraversalInput withLoaded(TraversalCost withLoad) {
    return new TraversalInput(vehicle, field, limit, heightM, margin01, hazard01, withLoad);
  }

  /**
   * Returns these layers with another field on the same cells, such as that of a loaded vehicle.
   */
  public TraversalInput withField(TraversalCost other) {
    return new TraversalInput(vehicle, other, limit, heightM, margin01, hazard01, loaded);
  }

  /** Returns these layers with the limits of another vehicle, such as those of a pair. */
  public TraversalInput withVehicle(Vehicle other) {
    return new TraversalInput(other, field, limit, heightM, margin01, hazard01, loaded);
  }

  /** In memory. */
  public TraversalInput(Mobility mobility, FloatGrid heightM, FloatGrid hazard01) {
    this(
        mobility.vehicle(),
        mobility.field(),
        mobility.limit(),
        onGridOf(mobility, heightM),
        onGridOf(mobility, mobility.margin01()),
        onGridOf(mobility, hazard01),
        null);
  }

  private static Floats onGridOf(Mobility mobility, FloatGrid layer) {
    GridSpec spec = mobility.field().spec();
    if (layer != null && !layer.spec().sameCellsAs(spec)) {
      throw new IllegalArgumentException("heights, hazard and mobility must share one grid");
    }
    return layer == null ? null : Floats.of(layer.values());
  }

  /** Without hazard. */
  public TraversalInput(Mobility mobility, FloatGrid heightM) {
    this(mobility, heightM, null);
  }

  /**
   * Hazard of a cell, 0 where it is unknown.
   *
   * @param cell index of the cell: row * cols + col
   */
  public double hazard01(int cell) {
    float h = hazard01 == null ? 0 : hazard01.get(cell);
    return h > 0 ? h : 0;
  }
}
