package org.scarpway.run.unit;

import java.util.List;

/**
 * What a reader must know of the verdicts on the ground of a vehicle.
 *
 * @param limitsNotResolved names of limits that the cells do not resolve, for a cell of a table;
 *     empty if all are resolved
 * @param notes one line each, with the name of the vehicle
 */
public record VehicleNotes(String limitsNotResolved, List<String> notes) {
  public VehicleNotes {
    notes = List.copyOf(notes);
  }
}
