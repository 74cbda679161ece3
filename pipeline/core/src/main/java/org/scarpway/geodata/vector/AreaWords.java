package org.scarpway.geodata.vector;

/**
 * What a user's file says of an area.
 *
 * @param name its name, may be empty
 * @param reason why it is marked, may be empty
 */
public record AreaWords(String name, String reason) {
  /** An area of which nothing is said. */
  public static final AreaWords NONE = new AreaWords("", "");

  private static final int MOST_NAME = 64;
  private static final int MOST_REASON = 400;

  /** Shortens the texts and takes out what is not printed. */
  public AreaWords {
    name = plain(name, MOST_NAME);
    reason = plain(reason, MOST_REASON);
  }

  private static String plain(String text, int most) {
    String s = text == null ? "" : text.replaceAll("\\p{C}+", " ").strip();
    return s.codePointCount(0, s.length()) <= most
        ? s
        : s.substring(0, s.offsetByCodePoints(0, most)) + "...";
  }
}
