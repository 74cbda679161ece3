package org.scarpway.reach.trip;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.KeptFronts;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Floats;

/**
 * Sums along the ways of a front, kept between runs by the front's own labels and steps, whatever
 * question asked for them: a question with other limits or stays whose fronts are the same sums
 * nothing again. Kept and summed anew they are the same to the last bit.
 */
final class KeptSums {
  /** Raised whenever a change of the code changes a sum. */
  private static final int VERSION = 2;

  private KeptSums() {}

  /**
   * Sums without requirements for stops, as {@link PathSums#along(CostField, Floats, boolean)}
   * returns them.
   *
   * @param front names how the labels were accumulated, such as the quantity
   */
  static PathSums along(Object front, CostField labels, Floats heightM, boolean hasEnergy) {
    return PathSums.once(
        labels, heightM, hasEnergy, () -> along(front, labels, heightM, hasEnergy, null));
  }

  /**
   * Sums as {@link PathSums#along(CostField, Floats, boolean, Stops)} returns them, not cached in
   * memory.
   *
   * @param front names how the labels were accumulated, such as the quantity
   * @param stops requirements of a stop anywhere on the ways; null for none
   */
  static PathSums along(
      Object front, CostField labels, Floats heightM, boolean hasEnergy, Stops stops) {
    ContentStore store = labels.costs().field().memory().store().ofOthers();
    PathSums none = PathSums.empty(labels, heightM, hasEnergy, stops);
    long bytes = (long) Float.BYTES * none.layers().size() * heightM.size();
    // Ground beyond the heap has sums only where ways are, which a file of all cells is not worth.
    if (labels.costs().field().beyondHeap() || !store.keeps(bytes)) {
      return none.addUp();
    }
    String key = key(front, labels, heightM, hasEnergy, stops);
    PathSums kept =
        store.read(key, in -> readFrom(in, PathSums.empty(labels, heightM, hasEnergy, stops)));
    if (kept != null) {
      kept.holdStops();
      return kept;
    }
    none.addUp();
    store.write(key, bytes, out -> writeTo(out, none));
    return none;
  }

  private static String key(
      Object front, CostField labels, Floats heightM, boolean hasEnergy, Stops stops) {
    String text =
        String.join(
            " ",
            "sums",
            Integer.toString(VERSION),
            labels.costs().field().digest(),
            front.toString(),
            labels.costs().direction().name(),
            Boolean.toString(hasEnergy),
            KeptFronts.digest(heightM),
            stops == null ? "no stops" : stops.digest(),
            "");
    try {
      MessageDigest sha = MessageDigest.getInstance("SHA-256");
      try (OutputStream to = new DigestOutputStream(OutputStream.nullOutputStream(), sha)) {
        to.write(text.getBytes(StandardCharsets.UTF_8));
        for (int source : labels.sources()) {
          to.write(ByteBuffer.allocate(Integer.BYTES).putInt(source).array());
        }
        labels.tiles().writeTo(to);
      }
      return HexFormat.of().formatHex(sha.digest());
    } catch (NoSuchAlgorithmException | IOException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  private static void writeTo(OutputStream out, PathSums sums) throws IOException {
    for (Floats layer : sums.layers()) {
      layer.writeTo(out);
    }
  }

  private static PathSums readFrom(InputStream in, PathSums sums) throws IOException {
    for (Floats layer : sums.layers()) {
      layer.readFrom(in);
    }
    return sums;
  }
}
