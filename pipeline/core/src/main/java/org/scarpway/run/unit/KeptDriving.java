package org.scarpway.run.unit;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.function.Function;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoilLayer;
import org.scarpway.run.store.StageKey;
import org.scarpway.stage.ContentStore;
import org.scarpway.vehicle.CostLayers;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;

/**
 * What questions ask of the ground of a vehicle, kept between runs by the key of its mobility: a
 * question asked again judges no ground again.
 */
final class KeptDriving {
  private final OpenJob job;
  private final Function<Vehicle, StageKey> keys;

  /**
   * @param limit code of the binding limit
   * @param margin01 margin left to it; null if it is only in the products
   */
  record Driving(TraversalCost field, ByteGrid limit, FloatGrid margin01) {
    static Driving of(Mobility m) {
      return new Driving(m.field(), m.limit(), m.margin01());
    }
  }

  /**
   * @param keys of the mobility of vehicles; null to keep nothing
   */
  KeptDriving(OpenJob job, Function<Vehicle, StageKey> keys) {
    this.job = job;
    this.keys = keys;
  }

  private String key(Vehicle vehicle) {
    return StageKey.of("driving", CostLayers.VERSION).add(keys.apply(vehicle)).build().hex();
  }

  private ContentStore store() {
    return job.workers().memory().store().ofOthers();
  }

  private long bytes() {
    return CostLayers.bytes(job.spec()) + job.spec().cells();
  }

  /** Returns what is kept of a vehicle; null if nothing is. */
  Driving of(Vehicle vehicle) {
    return keys == null || !store().keeps(bytes())
        ? null
        : store().read(key(vehicle), in -> read(in, vehicle));
  }

  private Driving read(InputStream from, Vehicle vehicle) throws IOException {
    GridSpec spec = job.spec();
    SoilLayer soils = job.stages().soilLayer(spec);
    DataInputStream in = new DataInputStream(from);
    TraversalCost field =
        CostLayers.read(
            in,
            job.workers().memory(),
            spec,
            vehicle,
            soils == null ? null : soils.rows(0, spec.rows()),
            job.job().dem().body());
    ByteGrid limit = ByteGrid.empty(spec);
    in.readFully(limit.values());
    return new Driving(field, limit, null);
  }

  /** Keeps what was computed. */
  void keep(Mobility all) {
    if (keys == null || !store().keeps(bytes())) {
      return;
    }
    store().write(key(all.vehicle()), bytes(), to -> write(to, all));
  }

  private static void write(OutputStream to, Mobility all) throws IOException {
    DataOutputStream out = new DataOutputStream(to);
    CostLayers.write(out, all.field());
    out.write(all.limit().values());
    out.flush();
  }
}
