package org.scarpway.config;

/** What a base or a target may be called: safe in tables, reports and messages. */
final class PlaceNames {
  static final String RULE =
      "a letter or digit, then letters, digits, spaces, . _ ' or -, at most 64 characters";
  private static final String FORM = "[\\p{L}\\p{N}][\\p{L}\\p{M}\\p{N} ._'-]{0,63}";

  private PlaceNames() {}

  static boolean isFit(String name) {
    return name.matches(FORM) && name.equals(name.strip());
  }
}
