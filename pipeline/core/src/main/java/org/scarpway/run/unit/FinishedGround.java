package org.scarpway.run.unit;

import org.scarpway.hazard.Hazard;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.GroundStages;
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

  /** Hazard to vehicles of some demands, by rows; for one thread at a time. */
  interface HazardRows extends AutoCloseable {
    /** Number of rows beyond a strip that its hazard may depend on. */
    int haloRows();

    /**
     * @param firstRow row of the whole grid that is the first row of the terrain
     */
    Hazard strip(Terrain terrain, int firstRow);

    @Override
    default void close() {}

    /** Computes the hazard. */
    static HazardRows computed(GroundStages.HazardRows rows) {
      return new HazardRows() {
        @Override
        public int haloRows() {
          return rows.haloRows();
        }

        @Override
        public Hazard strip(Terrain terrain, int firstRow) {
          return rows.strip(terrain, firstRow);
        }
      };
    }
  }

  /** Takes a strip of terrain that was just computed and written. */
  void computed(Terrain strip);

  /**
   * Takes a strip of hazard that was just computed and written.
   *
   * @param demands of the vehicles to which it is a hazard
   */
  void computed(FleetEnvelope demands, Hazard strip);

  /**
   * Takes a strip of mobility that was just computed and written; strips come from north to south.
   *
   * @param skipRows halo rows at the start of the strip
   */
  void computed(Mobility strip, int skipRows, int rows);

  /** Opens the finished terrain. */
  TerrainRows terrain();

  /**
   * Opens the hazard to vehicles of these demands: that of the finished stage if this run computed
   * it for the same demands, else computed.
   */
  HazardRows hazard(FleetEnvelope demands);

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
