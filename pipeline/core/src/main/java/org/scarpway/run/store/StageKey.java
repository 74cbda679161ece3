package org.scarpway.run.store;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Collection;
import java.util.Collections;
import java.util.HexFormat;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a stage's products depend on, by name, and the SHA-256 over it. Equal keys mean equal bytes:
 * everything that can change a product is an ingredient, and nothing else is.
 */
public final class StageKey {
  private final String stage;
  private final SortedMap<String, String> ingredients;
  private final String hex;

  private StageKey(Builder b) {
    this.stage = b.stage;
    this.ingredients = Collections.unmodifiableSortedMap(b.ingredients);
    this.hex = digest(b.stage, b.exact);
  }

  /**
   * @param version raised whenever the stage's code changes its results
   */
  public static Builder of(String stage, int version) {
    return new Builder(stage).add("version", version + " of " + Version.text());
  }

  public String hex() {
    return hex;
  }

  String stage() {
    return stage;
  }

  public SortedMap<String, String> ingredients() {
    return ingredients;
  }

  public static final class Builder {
    private final String stage;
    private final SortedMap<String, String> ingredients = new TreeMap<>();
    private final SortedMap<String, String> exact = new TreeMap<>();

    private Builder(String stage) {
      this.stage = stage;
    }

    /** The value's text is what counts, so it must say all that matters and hold no path. */
    public Builder add(String name, Object value) {
      if (ingredients.put(name, String.valueOf(value)) != null) {
        throw new IllegalStateException("ingredient " + name + " was added twice");
      }
      exact.put(name, exact(value));
      return this;
    }

    public Builder add(StageKey upstream) {
      return add("stage " + upstream.stage, upstream.hex);
    }

    public StageKey build() {
      return new StageKey(this);
    }
  }

  /** Text that no other value has: what people read does not tell [a, b] from the list of a, b. */
  private static String exact(Object value) {
    if (value instanceof Collection<?> all) {
      StringBuilder text = new StringBuilder("list");
      all.forEach(v -> text.append(bounded(exact(v))));
      return text.toString();
    }
    return value == null ? "" : value.getClass().getSimpleName() + " " + value;
  }

  /** Says where it ends, so that texts in a row are never those of another row. */
  private static String bounded(String text) {
    return text.length() + " " + text;
  }

  private static String digest(String stage, SortedMap<String, String> exact) {
    MessageDigest sha = sha256();
    sha.update(bounded(stage).getBytes(StandardCharsets.UTF_8));
    exact.forEach(
        (name, value) ->
            sha.update((bounded(name) + bounded(value)).getBytes(StandardCharsets.UTF_8)));
    return HexFormat.of().formatHex(sha.digest());
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
