package org.scarpway.reach;

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
final class Room {
  /** Those about the bases of one field. */
  private static final class Kept {
    final Map<Integer, SoftReference<Room>> byBase = new HashMap<>();
  }

  private final int base;
  private final MoveField field;
  private final Clearance clearance;
  private final Floats gapM;
  private boolean spread;

  private Room(int base, MoveField field, ScratchFile file, Workers workers) {
    this.base = base;
    this.field = field;
    this.clearance = Clearance.of(field, workers);
    this.gapM = Floats.of(field.spec().cells(), file);
  }

  /** The ways are there after {@link #spread}. */
  static Room about(int base, MoveField field, Workers workers) {
    ScratchFile file = field.scratch((long) Float.BYTES * field.spec().cells());
    if (file != null) {
      return new Room(base, field, file, workers);
    }
    Map<Integer, SoftReference<Room>> kept = field.memory().of(field, Kept.class, Kept::new).byBase;
    synchronized (kept) {
      SoftReference<Room> before = kept.get(base);
      Room room = before == null ? null : before.get();
      if (room == null) {
        room = new Room(base, field, null, workers);
        kept.put(base, new SoftReference<>(room));
      }
      return room;
    }
  }

  /** Finds the widest ways, unless they are known. */
  synchronized void spread() {
    if (!spread) {
      WidestWays.spread(clearance, field, base, gapM);
      spread = true;
    }
  }

  Clearance clearance() {
    return clearance;
  }

  /** Width of the narrowest passage on the widest way (m), NaN where there is none. */
  Floats gapM() {
    return gapM;
  }
}
