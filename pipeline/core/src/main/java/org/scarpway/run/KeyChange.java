package org.scarpway.run;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeSet;
import java.util.regex.Pattern;

/** Which ingredients of a stage changed, in words. */
final class KeyChange {
  private static final int MOST_PARTS = 3;
  private static final int LONGEST = 48;
  private static final Pattern KEY_PART = Pattern.compile("([a-z0-9])([A-Z])");

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
        changes.add(change(name, old, young));
      }
    }
    return changes.stream().distinct().toList();
  }

  private static String change(String name, String old, String young) {
    if (name.startsWith("upstream ")) {
      return "what it rests on changes";
    }
    if (name.startsWith("stage ")) {
      return name.substring("stage ".length()) + " changes";
    }
    return name + parts(old, young);
  }

  /** The parts of a record's text that differ: speed ms 3.3 becomes speed ms 3.0. */
  private static String parts(String old, String young) {
    Set<String> gone = parts(old);
    Set<String> come = parts(young);
    gone.removeAll(parts(young));
    come.removeAll(parts(old));
    String was = shown(gone);
    String is = shown(come);
    return was.equals(is) ? " changes" : ": " + was + " becomes " + is;
  }

  private static Set<String> parts(String text) {
    return new LinkedHashSet<>(Arrays.stream(text.split("[,;] ?")).map(KeyChange::words).toList());
  }

  /** Records' names, digests and spelling of keys are our own business. */
  private static String words(String part) {
    String plain =
        part.replaceAll("\\b[0-9a-f]{32,}\\b", "other content")
            .replaceAll("\\b[A-Z]\\w*\\[", " ")
            .replaceAll("[\\[\\]{}]", "")
            .replaceAll(" *= *", " ");
    return KEY_PART
        .matcher(plain)
        .replaceAll(m -> m.group(1) + " " + m.group(2).toLowerCase(Locale.ROOT))
        .replaceAll(" +", " ")
        .strip();
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
