package org.scarpway.vehicle;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;

/**
 * Writes the layers of a vehicle's cost surface and reads them back, equal to the last bit, so that
 * the ground need not be judged again. Tables follow from the vehicle and are made anew.
 */
public final class CostLayers {
  /** Raised whenever the layout changes. */
  public static final int VERSION = 1;

  private static final int PIECE = 1 << 14;

  private CostLayers() {}

  /** Bytes that are written for a surface, from above but for tacked headings. */
  public static long bytes(GridSpec spec) {
    return (4L * Float.BYTES + Integer.BYTES) * spec.cells();
  }

  /** Writes all layers. */
  public static void write(DataOutputStream out, TraversalCost cost) throws IOException {
    write(out, cost.allowedLayer());
    write(out, cost.gradEastLayer());
    write(out, cost.gradNorthLayer());
    write(out, cost.speedCapLayer());
    write(out, cost.detourLayer());
    out.writeBoolean(cost.tacks() != null);
    if (cost.tacks() != null) {
      cost.tacks().writeTo(out);
    }
  }

  /**
   * Reads the surface of a vehicle.
   *
   * @param memory of the engine
   * @param soils soil of each cell; null if the vehicle's own soil is everywhere
   * @throws IOException if these are not such layers
   */
  public static TraversalCost read(
      DataInputStream in, Memory memory, GridSpec spec, Vehicle vehicle, SoilMap soils, Body body)
      throws IOException {
    SoilLimits limits = new SoilLimits(vehicle, soils, body);
    return new TraversalCost(
        memory,
        spec,
        ints(in, spec.cells()),
        floats(in, spec.cells()),
        floats(in, spec.cells()),
        floats(in, spec.cells()),
        floats(in, spec.cells()),
        in.readBoolean() ? TackedHeadings.readFrom(in) : null,
        Bytes.of(limits.soilOf()),
        limits.tables());
  }

  private static void write(DataOutputStream out, Ints layer) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(PIECE * Integer.BYTES);
    for (int at = 0; at < layer.size(); at += PIECE) {
      bytes.clear();
      int end = Math.min(layer.size(), at + PIECE);
      for (int i = at; i < end; i++) {
        bytes.putInt(layer.get(i));
      }
      out.write(bytes.array(), 0, bytes.position());
    }
  }

  private static void write(DataOutputStream out, Floats layer) throws IOException {
    out.writeBoolean(layer != null);
    if (layer != null) {
      layer.writeTo(out);
    }
  }

  private static Ints ints(DataInputStream in, int cells) throws IOException {
    int[] all = new int[cells];
    byte[] bytes = new byte[PIECE * Integer.BYTES];
    for (int at = 0; at < cells; at += PIECE) {
      int n = Math.min(PIECE, cells - at);
      in.readFully(bytes, 0, n * Integer.BYTES);
      ByteBuffer.wrap(bytes).asIntBuffer().get(all, at, n);
    }
    return Ints.of(all);
  }

  private static Floats floats(DataInputStream in, int cells) throws IOException {
    if (!in.readBoolean()) {
      return null;
    }
    Floats all = Floats.of(cells, null);
    all.readFrom(in);
    return all;
  }
}
