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
 * The named ingredients that a stage's products depend on, and the SHA-256 over them. Equal keys
 * mean equal bytes: everything that can change a product is an ingredient, and nothing else is.
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
   * @param version raised whenever a change of the stage's code changes its results
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

    /**
     * Adds an ingredient. Only the value's text counts, so it must state everything that matters
     * and contain no path.
     */
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

  /**
   * Returns text that no other value has: the usual text does not distinguish [a, b] from the list
   * of a, b.
   */
  private static String exact(Object value) {
    if (value instanceof Collection<?> all) {
      StringBuilder text = new StringBuilder("list");
      all.forEach(v -> text.append(bounded(exact(v))));
      return text.toString();
    }
    return value == null ? "" : value.getClass().getSimpleName() + " " + value;
  }

  /** Delimits a text, so that a sequence of texts is never equal to that of another sequence. */
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
