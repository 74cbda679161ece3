package org.scarpway.run.unit;

import org.scarpway.reach.question.TraversalInput;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walking;

/**
 * The ground of a job's finished stages as later stages use it: kept in memory, or read from
 * finished rasters and scratch files where it is larger.
 */
interface FinishedGround {
  /** Reads terrain by rows; for one thread at a time. */
  interface TerrainRows extends AutoCloseable {
    Terrain rows(int firstRow, int rows);

    @Override
    default void close() {}
  }

  /** Takes a strip of terrain that was just computed and written. */
  void computed(Terrain strip);

  /**
   * Takes a strip of mobility that was just computed and written; strips come from north to south.
   *
   * @param skipRows halo rows at the start of the strip
   */
  void computed(Mobility strip, int skipRows, int rows);

  /** Opens the finished terrain. */
  TerrainRows terrain();

  /** Returns a vehicle's ground, which may be one without a stage, such as a loaded vehicle. */
  TraversalInput of(Vehicle vehicle);

  /**
   * Returns a vehicle's ground with its margins.
   *
   * @param withHazard true to include the hazard
   */
  TraversalInput withMargins(Vehicle vehicle, boolean withHazard);

  /** Returns the costs of the job's walker. */
  Walking walker();
}
