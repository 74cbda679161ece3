package org.scarpway.reach.front;

import java.lang.ref.SoftReference;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.BitSet;
import java.util.HexFormat;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Memory;

/**
 * Fronts kept by what they were computed from, in memory while there is room and in the engine's
 * store between runs. A front that was kept to a larger cost serves every smaller one; one that was
 * kept to a smaller cost is continued. Kept, continued and anew, a front has the same labels and
 * steps to the last bit.
 */
public final class KeptFronts {
  /** Raised whenever a change of the code changes a label or a step. */
  private static final int VERSION = 1;

  private final Map<String, SoftReference<CostField>> inMemory = new ConcurrentHashMap<>();

  private KeptFronts() {}

  /** The kept fronts of the engine that made the ground. */
  public static KeptFronts of(Costs costs) {
    Memory memory = costs.field().memory();
    return memory.of(memory, KeptFronts.class, KeptFronts::new);
  }

  /** What a front is computed from, but for the cost at which it ends. */
  public static final class Key {
    private final String digest;
    private final Costs costs;
    private final int[] sources;

    /**
     * @param digest of ground, vehicle, quantity, direction, sources and expansion bound
     */
    private Key(String digest, Costs costs, int[] sources) {
      this.digest = digest;
      this.costs = costs;
      this.sources = sources;
    }

    /** The digest, as hexadecimal digits. */
    public String digest() {
      return digest;
    }

    Costs costs() {
      return costs;
    }
  }

  /**
   * The key of a front without an expansion bound.
   *
   * @param quantity quantity of the costs, which have no factor
   */
  public static Key key(Costs costs, Quantity quantity, int... sources) {
    return key(costs, quantity, "", sources);
  }

  /**
   * @param bound names the expansion bound and its digest
   */
  public static Key key(Costs costs, Quantity quantity, String bound, int... sources) {
    MessageDigest sha = sha256();
    String text =
        String.join(
            " ",
            "front",
            Integer.toString(VERSION),
            costs.field().digest(),
            quantity.name(),
            costs.direction().name(),
            bound);
    sha.update(text.getBytes(StandardCharsets.UTF_8));
    ByteBuffer cells = ByteBuffer.allocate(Integer.BYTES * sources.length);
    cells.asIntBuffer().put(sources);
    sha.update(cells.array());
    return new Key(HexFormat.of().formatHex(sha.digest()), costs, sources);
  }

  /** Digest of a set of cells. */
  public static String digest(BitSet cells) {
    return HexFormat.of().formatHex(sha256().digest(cells.toByteArray()));
  }

  /** Digest of a value per cell. */
  public static String digest(Floats values) {
    MessageDigest sha = sha256();
    int piece = 1 << 14;
    float[] some = new float[piece];
    ByteBuffer bytes = ByteBuffer.allocate(piece * Float.BYTES);
    for (int at = 0; at < values.size(); at += piece) {
      int n = Math.min(piece, values.size() - at);
      values.read(at, some, 0, n);
      bytes.asFloatBuffer().put(some, 0, n);
      sha.update(bytes.array(), 0, n * Float.BYTES);
    }
    return HexFormat.of().formatHex(sha.digest());
  }

  /** The labels up to a cost, or null if they are not kept. */
  public CostField found(Key key, double budget) {
    CostField kept = any(key);
    return kept != null && kept.upTo() >= budget ? kept.upTo(budget) : null;
  }

  /** The front to a cost: a kept one that is continued, else one that begins at its sources. */
  public Front front(Key key, double budget) {
    CostField kept = any(key);
    return kept == null || kept.upTo() >= budget
        ? Front.from(key.costs, budget, key.sources)
        : Front.continuing(kept, budget);
  }

  /** The labels up to whatever cost they are kept, or null if there are none. */
  public CostField any(Key key) {
    SoftReference<CostField> before = inMemory.get(key.digest);
    CostField kept = before == null ? null : before.get();
    if (kept == null) {
      kept =
          key.costs
              .field()
              .memory()
              .store()
              .read(key.digest, in -> CostField.readFrom(in, key.costs, key.sources));
      if (kept != null) {
        inMemory.put(key.digest, new SoftReference<>(kept));
      }
    }
    return kept == null ? null : kept.by(key.costs);
  }

  /** Keeps the labels of an ended front. */
  public void keep(Key key, CostField found) {
    inMemory.put(key.digest, new SoftReference<>(found));
    keepBetweenRuns(key, found);
  }

  /** Keeps labels for later runs that this one will not ask for again. */
  public void keepBetweenRuns(Key key, CostField found) {
    key.costs.field().memory().store().write(key.digest, found.tiles().bytes(), found::writeTo);
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
