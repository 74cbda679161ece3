package org.scarpway.run.unit;

import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.BandAmounts;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Memory;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * The part of a reach answer that does not depend on the question's name and on the labels and
 * amounts of its bands, kept between runs: the files of all rasters but that of the bands, what
 * decides the band of each cell, and the parts of the result that are in no raster. Only an answer
 * whose recalculated trips broke no rule is kept.
 */
final class KeptReach {
  private static final int PIECE = 1 << 16;

  private final Memory memory;
  private final GridSpec spec;
  private final StageKey key;

  /**
   * @param rest of the answer; its areas of bands are those of the bands asked for then
   * @param amounts null if the question has no bands
   */
  record Found(ReachRest rest, BandAmounts amounts) {}

  /**
   * @param memory of the engine, whose store keeps the answer
   * @param key over everything that the answer depends on
   */
  KeptReach(Memory memory, GridSpec spec, StageKey key) {
    this.memory = memory;
    this.spec = spec;
    this.key = key;
  }

  StageKey key() {
    return key;
  }

  private ContentStore store() {
    return memory.store().ofOthers();
  }

  /**
   * Puts the files into a folder and returns the rest of the answer; returns null, with the folder
   * as it was, if there is no answer that is as it was written.
   *
   * @param files names of the files
   */
  Found putInto(Path dir, List<String> files) {
    Found found = store().read(key.hex(), in -> readFrom(new DataInputStream(in), dir, files));
    if (found == null) {
      for (String name : files) {
        remove(dir.resolve(name));
      }
    }
    return found;
  }

  private static void remove(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      throw new StageFailure("cannot remove " + file + ": " + Reason.of(e), e);
    }
  }

  private Found readFrom(DataInputStream in, Path dir, List<String> files) throws IOException {
    byte[] json = new byte[in.readInt()];
    in.readFully(json);
    BandAmounts amounts = null;
    if (in.readBoolean()) {
      long bytes = (long) Float.BYTES * spec.cells();
      amounts = BandAmounts.readFrom(in, spec.cells(), memory.scratch(bytes));
    }
    for (String name : files) {
      long length = in.readLong();
      AtomicFileWrite.write(dir.resolve(name), part -> copy(in, length, part));
    }
    return new Found(StoredResult.of(json, ReachRest.class), amounts);
  }

  private static void copy(InputStream in, long length, Path part) throws IOException {
    byte[] some = new byte[PIECE];
    try (OutputStream out = Files.newOutputStream(part)) {
      for (long left = length; left > 0; ) {
        int n = in.read(some, 0, (int) Math.min(some.length, left));
        if (n < 0) {
          throw new EOFException("a file ends early");
        }
        out.write(some, 0, n);
        left -= n;
      }
    }
  }

  /** Keeps the answer whose files are in a folder. */
  void keep(Path dir, List<String> files, Found answer) {
    byte[] json = StoredResult.bytes(answer.rest);
    long bytes = json.length + (long) Float.BYTES * spec.cells();
    for (String name : files) {
      bytes += dir.resolve(name).toFile().length();
    }
    store().write(key.hex(), bytes, to -> writeTo(to, json, answer.amounts, dir, files));
  }

  private static void writeTo(
      OutputStream to, byte[] json, BandAmounts amounts, Path dir, List<String> files)
      throws IOException {
    DataOutputStream out = new DataOutputStream(new BufferedOutputStream(to, PIECE));
    out.writeInt(json.length);
    out.write(json);
    out.writeBoolean(amounts != null);
    if (amounts != null) {
      amounts.writeTo(out);
    }
    for (String name : files) {
      Path file = dir.resolve(name);
      out.writeLong(Files.size(file));
      Files.copy(file, out);
    }
    out.flush();
  }
}
