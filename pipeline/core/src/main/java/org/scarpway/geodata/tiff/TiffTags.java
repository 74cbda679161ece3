package org.scarpway.geodata.tiff;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** The tags of one image of a TIFF or BigTIFF file, little-endian, as bytes. */
final class TiffTags {
  private static final int ASCII = 2;
  private static final int SHORT = 3;
  private static final int LONG = 4;
  private static final int DOUBLE = 12;
  private static final int LONG8 = 16;

  private record Tag(int id, int type, long count, ByteBuffer values) {}

  private final boolean big;
  private final List<Tag> tags = new ArrayList<>();

  TiffTags(boolean big) {
    this.big = big;
  }

  /** Adds a tag of 16-bit values. Tags must be added in ascending order. */
  TiffTags shorts(int id, int... values) {
    ByteBuffer b = little(values.length * 2);
    for (int v : values) {
      b.putShort((short) v);
    }
    return add(id, SHORT, values.length, b);
  }

  TiffTags number(int id, int value) {
    return add(id, LONG, 1, little(4).putInt(value));
  }

  /** Adds a tag of offsets or sizes in the file. */
  TiffTags places(int id, long[] values) {
    ByteBuffer b = little(values.length * (big ? 8 : 4));
    for (long v : values) {
      place(b, v);
    }
    return add(id, big ? LONG8 : LONG, values.length, b);
  }

  TiffTags doubles(int id, double... values) {
    ByteBuffer b = little(values.length * 8);
    for (double v : values) {
      b.putDouble(v);
    }
    return add(id, DOUBLE, values.length, b);
  }

  TiffTags text(int id, String s) {
    return bytes(id, (s + "\0").getBytes(StandardCharsets.UTF_8));
  }

  TiffTags bytes(int id, byte[] ascii) {
    return add(id, ASCII, ascii.length, little(ascii.length).put(ascii));
  }

  private TiffTags add(int id, int type, int count, ByteBuffer filled) {
    tags.add(new Tag(id, type, count, filled.flip()));
    return this;
  }

  /**
   * Encodes the directory, followed by the values that do not fit into it.
   *
   * @param at its offset in the file, a multiple of 8
   * @param last true if no other image follows; otherwise the next directory follows immediately
   */
  byte[] bytes(long at, boolean last) {
    int room = big ? 8 : 4;
    int head = aligned((big ? 8 : 2) + tags.size() * (big ? 20 : 12) + room);
    int size = head;
    for (Tag t : tags) {
      int n = t.values.remaining();
      size += n > room ? aligned(n) : 0;
    }
    byte[] bytes = new byte[size];
    ByteBuffer b = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    if (big) {
      b.putLong(tags.size());
    } else {
      b.putShort((short) tags.size());
    }
    int outside = head;
    for (Tag t : tags) {
      int n = t.values.remaining();
      b.putShort((short) t.id).putShort((short) t.type);
      place(b, t.count);
      if (n <= room) {
        b.put(t.values.duplicate()).position(b.position() + room - n);
      } else {
        place(b, at + outside);
        b.put(outside, t.values, t.values.position(), n);
        outside += aligned(n);
      }
    }
    place(b, last ? 0 : at + size);
    return bytes;
  }

  private void place(ByteBuffer b, long v) {
    if (big) {
      b.putLong(v);
    } else if (v >>> 32 == 0) {
      b.putInt((int) v);
    } else {
      throw new IllegalStateException("place " + v + " does not fit 32 bits");
    }
  }

  static int aligned(int n) {
    return (n + 7) & ~7;
  }

  private static ByteBuffer little(int n) {
    return ByteBuffer.allocate(n).order(ByteOrder.LITTLE_ENDIAN);
  }
}
