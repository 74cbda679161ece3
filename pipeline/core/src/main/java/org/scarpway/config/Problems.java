package org.scarpway.config;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.stage.UserError;

/**
 * Collects all errors in the user's files, so that they are reported together: one line each, in
 * the order of the files and their lines.
 */
final class Problems {
  private static final int MOST_SHOWN = 50;
  private static final int LONGEST_QUOTE = 60;

  private record Problem(SourceLocation at, String line) {}

  private final List<Problem> found = new ArrayList<>();
  private final List<String> sources = new ArrayList<>();

  /**
   * @param what the error, with the value found
   * @param expected what is allowed
   * @param remedy what to do
   */
  void add(SourceLocation at, String what, String expected, String remedy) {
    if (!sources.contains(at.source())) {
      sources.add(at.source());
    }
    String line = at + ": " + what + "; expected " + expected + "; " + remedy;
    found.add(new Problem(at, oneLine(line)));
  }

  boolean isEmpty() {
    return found.isEmpty();
  }

  int count() {
    return found.size();
  }

  /** Throws one error with a line per problem, if there are any. */
  void throwIfAny() {
    if (found.isEmpty()) {
      return;
    }
    List<Problem> sorted = new ArrayList<>(found);
    sorted.sort(
        Comparator.comparingInt((Problem p) -> sources.indexOf(p.at.source()))
            .thenComparingInt(p -> p.at.line())
            .thenComparingInt(p -> p.at.column()));
    Set<String> lines = new LinkedHashSet<>();
    sorted.forEach(p -> lines.add(p.line));
    StringBuilder text = new StringBuilder();
    int shown = 0;
    for (String line : lines) {
      if (shown == MOST_SHOWN) {
        text.append("\nand ").append(lines.size() - shown).append(" more problems");
        break;
      }
      text.append(shown == 0 ? "" : "\n").append(line);
      shown++;
    }
    throw new UserError(text.toString());
  }

  /**
   * Returns the user's text in quotes, shortened, without characters that could disturb a terminal.
   */
  static String quote(String text) {
    String clean = oneLine(text);
    int codePoints = clean.codePointCount(0, clean.length());
    if (codePoints > LONGEST_QUOTE) {
      clean = clean.substring(0, clean.offsetByCodePoints(0, LONGEST_QUOTE)) + "...";
    }
    return "'" + clean + "'";
  }

  private static String oneLine(String text) {
    StringBuilder b = new StringBuilder(text.length());
    text.codePoints()
        .map(
            c ->
                Character.isISOControl(c)
                        || Character.getType(c) == Character.FORMAT
                        || Character.getType(c) == Character.LINE_SEPARATOR
                        || Character.getType(c) == Character.PARAGRAPH_SEPARATOR
                    ? '?'
                    : c)
        .forEach(b::appendCodePoint);
    return b.toString();
  }
}
