package org.scarpway.reach.clearance;

import java.lang.ref.SoftReference;
import java.util.HashMap;
import java.util.Map;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Clearance, and the widest path (maximum-bottleneck path) from a base to each cell. Cached while
 * memory allows, since several requests start from one base, and between runs; a field in a scratch
 * file is not cached.
 */
public final class WidestPathField {
  /** Raised whenever a change of the code changes a width. */
  private static final String VERSION = "1";

  /** Cache of the fields about the bases of one move field. */
  private static final class Kept {
    final Map<Integer, SoftReference<WidestPathField>> byBase = new HashMap<>();
  }

  private final int base;
  private final TraversalCost field;
  private final Clearance clearance;
  private final Floats gapM;
  private boolean spread;

  private WidestPathField(int base, TraversalCost field, ScratchFile file, Workers workers) {
    this.base = base;
    this.field = field;
    this.clearance = Clearance.of(field, workers);
    this.gapM = Floats.of(field.spec().cells(), file);
  }

  /** Returns the field about a base; widest paths are available after {@link #spread}. */
  public static WidestPathField about(int base, TraversalCost field, Workers workers) {
    ScratchFile file = field.scratch((long) Float.BYTES * field.spec().cells());
    if (file != null) {
      return new WidestPathField(base, field, file, workers);
    }
    Map<Integer, SoftReference<WidestPathField>> kept =
        field.memory().of(field, Kept.class, Kept::new).byBase;
    synchronized (kept) {
      SoftReference<WidestPathField> before = kept.get(base);
      WidestPathField room = before == null ? null : before.get();
      if (room == null) {
        room = new WidestPathField(base, field, null, workers);
        kept.put(base, new SoftReference<>(room));
      }
      return room;
    }
  }

  /** Computes the widest paths unless they are known. */
  public synchronized void spread(Workers workers) {
    if (!spread) {
      spreadOrRead(workers);
      spread = true;
    }
  }

  /** Takes the widths from an earlier run where it kept them. */
  private void spreadOrRead(Workers workers) {
    ContentStore store = field.memory().store().ofOthers();
    long bytes = (long) Float.BYTES * gapM.size();
    if (field.beyondHeap() || !store.keeps(bytes)) {
      WidestPaths.spread(clearance, field, base, gapM, workers);
      return;
    }
    String key = String.join("-", "widest", VERSION, field.digest(), Integer.toString(base));
    Floats kept =
        store.read(
            key,
            in -> {
              gapM.readFrom(in);
              return gapM;
            });
    if (kept == null) {
      gapM.fill(0);
      WidestPaths.spread(clearance, field, base, gapM, workers);
      store.write(key, bytes, gapM::writeTo);
    }
  }

  public Clearance clearance() {
    return clearance;
  }

  /** Bottleneck width of the widest path to each cell (m), NaN where there is no path. */
  public Floats bottleneckWidthM() {
    return gapM;
  }
}
