package org.scarpway.config;

import java.util.regex.Pattern;

/** The rule for names of bases and targets, which must be safe in tables, reports and messages. */
final class PlaceNames {
  static final String RULE =
      "a letter or digit, then letters, digits, spaces, . _ ' or -, at most 64 characters";
  private static final Pattern FORM =
      Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{M}\\p{N} ._'-]{0,63}");

  private PlaceNames() {}

  static boolean isFit(String name) {
    return FORM.matcher(name).matches() && name.equals(name.strip());
  }
}
