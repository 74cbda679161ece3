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
import org.scarpway.stage.ContentStore;
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

    /** Digest of the same without the values of cells, null for a front with a bound. */
    private final String near;

    /**
     * @param digest of ground, vehicle, quantity, direction, sources and expansion bound
     */
    private Key(String digest, String near, Costs costs, int[] sources) {
      this.digest = digest;
      this.near = near;
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
    String of = quantity.name() + " " + costs.direction().name() + " " + bound;
    String near =
        bound.isEmpty()
            ? digest(
                "near " + VERSION + " " + hex(costs.field().digestBesideCells()) + " " + of,
                sources)
            : null;
    String front = "front " + VERSION + " " + costs.field().digest() + " " + of;
    return new Key(digest(front, sources), near, costs, sources);
  }

  private static String digest(String text, int... sources) {
    MessageDigest sha = sha256();
    sha.update(text.getBytes(StandardCharsets.UTF_8));
    ByteBuffer cells = ByteBuffer.allocate(Integer.BYTES * sources.length);
    cells.asIntBuffer().put(sources);
    sha.update(cells.array());
    return hex(sha.digest());
  }

  private static String hex(byte[] bytes) {
    return HexFormat.of().formatHex(bytes);
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

  /**
   * The front to a cost: a kept one that is continued or repaired, else one that begins at its
   * sources.
   */
  public Front front(Key key, double budget) {
    CostField kept = any(key);
    if (kept != null && kept.upTo() < budget) {
      return Front.continuing(kept, budget);
    }
    Front repaired = kept == null ? repaired(key, budget) : null;
    return repaired == null ? Front.from(key.costs, budget, key.sources) : repaired;
  }

  /**
   * The front to a cost, from one that was kept between runs over all of a ground that differs in
   * few tiles; null if there is none.
   */
  public Front repaired(Key key, double budget) {
    if (key.near == null) {
      return null;
    }
    ContentStore store = key.costs.field().memory().store();
    GroundTiles before = store.ofOthers().read(key.near, GroundTiles::readFrom);
    if (before == null || before.front().equals(key.digest)) {
      return null;
    }
    BitSet changed = before.changed(key.costs.field());
    if (changed == null) {
      return null;
    }
    CostField ended =
        store.ofOthers().read(before.front(), in -> CostField.readFrom(in, key.costs, key.sources));
    return ended == null || ended.upTo() < Double.POSITIVE_INFINITY
        ? null
        : Front.onOtherGround(ended, key.costs, changed, budget);
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
    ContentStore store = key.costs.field().memory().store();
    store.write(key.digest, found.tiles().bytes(), found::writeTo);
    if (key.near != null && found.upTo() == Double.POSITIVE_INFINITY && store.holds(key.digest)) {
      GroundTiles ground = GroundTiles.of(key.digest, key.costs.field());
      store.ofOthers().write(key.near, ground.bytes(), ground::writeTo);
    }
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
