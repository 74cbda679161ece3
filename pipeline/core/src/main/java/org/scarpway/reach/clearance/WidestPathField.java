package org.scarpway.reach.clearance;

import java.lang.ref.SoftReference;
import java.util.HashMap;
import java.util.Map;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * The room about a base: clearance, and the widest way from the base to each cell. Kept while
 * memory allows, since several questions start from one base; one in a scratch file is not kept.
 */
public final class WidestPathField {
  /** Those about the bases of one field. */
  private static final class Kept {
    final Map<Integer, SoftReference<WidestPathField>> byBase = new HashMap<>();
  }

  private final int base;
  private final MoveField field;
  private final Clearance clearance;
  private final Floats gapM;
  private boolean spread;

  private WidestPathField(int base, MoveField field, ScratchFile file, Workers workers) {
    this.base = base;
    this.field = field;
    this.clearance = Clearance.of(field, workers);
    this.gapM = Floats.of(field.spec().cells(), file);
  }

  /** The ways are there after {@link #spread}. */
  public static WidestPathField about(int base, MoveField field, Workers workers) {
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

  /** Finds the widest ways, unless they are known. */
  public synchronized void spread() {
    if (!spread) {
      WidestPaths.spread(clearance, field, base, gapM);
      spread = true;
    }
  }

  public Clearance clearance() {
    return clearance;
  }

  /** Width of the narrowest passage on the widest way (m), NaN where there is none. */
  public Floats gapM() {
    return gapM;
  }
}
