package org.scarpway.run;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeSet;

/** Which ingredients of a stage changed, in words. */
final class KeyChange {
  private static final int MOST_PARTS = 3;
  private static final int LONGEST = 48;

  private KeyChange() {}

  /** One line for each ingredient that differs. */
  static List<String> between(SortedMap<String, String> before, SortedMap<String, String> now) {
    Set<String> names = new TreeSet<>(before.keySet());
    names.addAll(now.keySet());
    List<String> changes = new ArrayList<>();
    for (String name : names) {
      String old = before.get(name);
      String young = now.get(name);
      if (old == null) {
        changes.add(name + " is new");
      } else if (young == null) {
        changes.add(name + " is gone");
      } else if (!old.equals(young)) {
        changes.add(
            name.startsWith("stage ")
                ? name.substring(6) + " changes"
                : name + ": " + parts(old, young));
      }
    }
    return changes;
  }

  /** The parts of a record's text that differ: speedMs=3.3 becomes speedMs=3.0. */
  private static String parts(String old, String young) {
    Set<String> gone = parts(old);
    Set<String> come = parts(young);
    gone.removeAll(parts(young));
    come.removeAll(parts(old));
    return shown(gone) + " becomes " + shown(come);
  }

  private static Set<String> parts(String text) {
    return new LinkedHashSet<>(Arrays.asList(text.split("[,;] ?")));
  }

  private static String shown(Set<String> parts) {
    if (parts.isEmpty()) {
      return "nothing";
    }
    List<String> first = parts.stream().limit(MOST_PARTS).map(KeyChange::cut).toList();
    return String.join(", ", first) + (parts.size() > MOST_PARTS ? ", ..." : "");
  }

  private static String cut(String part) {
    return part.length() <= LONGEST ? part : part.substring(0, LONGEST) + "...";
  }
}
