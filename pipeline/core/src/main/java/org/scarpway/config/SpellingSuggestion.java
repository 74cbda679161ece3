package org.scarpway.config;

import java.util.Arrays;
import java.util.Collection;
import java.util.Locale;
import java.util.TreeSet;

/**
 * Finds the known word nearest to a misspelt one, by edit distance with transpositions (Damerau
 * 1964, Levenshtein 1966; optimal string alignment).
 */
public final class SpellingSuggestion {
  private static final int LONGEST_LIST = 20;

  private SpellingSuggestion() {}

  /** Returns a remedy: the nearest known word, or the list of known words if none is near. */
  public static String remedy(String got, Collection<String> known) {
    String near = to(got, known);
    if (near != null) {
      return "did you mean " + near + "?";
    }
    if (known.isEmpty()) {
      return "remove it";
    }
    TreeSet<String> sorted = new TreeSet<>(known);
    String list = String.join(", ", sorted.stream().limit(LONGEST_LIST).toList());
    return "use one of " + list + (sorted.size() > LONGEST_LIST ? ", ..." : "");
  }

  /** Returns the nearest word, the first in order among equals, or null if all are far. */
  static String to(String got, Collection<String> known) {
    String a = got.toLowerCase(Locale.ROOT);
    if (a.length() > 100) {
      return null;
    }
    String best = null;
    int bestDistance = Integer.MAX_VALUE;
    for (String word : new TreeSet<>(known)) {
      int d = distance(a, word.toLowerCase(Locale.ROOT));
      int allowed = Math.max(1, Math.min(word.length(), a.length()) / 3);
      if (d <= allowed && d < bestDistance) {
        best = word;
        bestDistance = d;
      }
    }
    return best;
  }

  static int distance(String a, String b) {
    int[] before = new int[b.length() + 1];
    int[] row = new int[b.length() + 1];
    int[] next = new int[b.length() + 1];
    Arrays.setAll(row, j -> j);
    for (int i = 1; i <= a.length(); i++) {
      next[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        boolean same = a.charAt(i - 1) == b.charAt(j - 1);
        next[j] = Math.min(Math.min(next[j - 1], row[j]) + 1, row[j - 1] + (same ? 0 : 1));
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          next[j] = Math.min(next[j], before[j - 2] + 1);
        }
      }
      int[] spare = before;
      before = row;
      row = next;
      next = spare;
    }
    return row[b.length()];
  }
}
