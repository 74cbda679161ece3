package org.scarpway.run.store;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.scarpway.stage.Digits;

/** Describes in words which ingredients of a stage changed. */
public final class KeyChange {
  private static final int MOST_PARTS = 3;
  private static final int LONGEST = 48;
  private static final Pattern DIGEST = Pattern.compile("\\b[0-9a-f]{32,}\\b");
  private static final Pattern LONG_NUMBER = Pattern.compile("-?\\d+\\.\\d+(?:E-?\\d+)?");
  private static final Pattern KEY_PART = Pattern.compile("([a-z]|[0-9](?!E-?[0-9]))([A-Z])");

  private KeyChange() {}

  /** Returns one line for each ingredient that differs. */
  public static List<String> between(
      SortedMap<String, String> before, SortedMap<String, String> now) {
    Set<String> names = new TreeSet<>(before.keySet());
    names.addAll(now.keySet());
    List<String> changes = new ArrayList<>();
    for (String name : names) {
      String old = before.get(name);
      String young = now.get(name);
      if (old == null) {
        changes.add(rests(name) ? "it rests on one result more" : name + " is new");
      } else if (young == null) {
        changes.add(rests(name) ? "it rests on one result fewer" : name + " is gone");
      } else if (!old.equals(young)) {
        changes.add(change(name, old, young));
      }
    }
    return changes.stream().distinct().toList();
  }

  /**
   * True for results of earlier stages, which are only counted: their own lines report what changed
   * in them.
   */
  private static boolean rests(String name) {
    return name.startsWith("upstream ");
  }

  private static String change(String name, String old, String young) {
    if (rests(name)) {
      return "what it rests on changes";
    }
    if (name.startsWith("stage ")) {
      return name.substring("stage ".length()) + " changes";
    }
    return (name.equals("params") ? "settings" : name) + parts(old, young);
  }

  /** Returns the parts of a record's text that differ: speed ms 3.3 becomes speed ms 3.0. */
  private static String parts(String old, String young) {
    Set<String> gone = parts(old);
    Set<String> come = parts(young);
    gone.removeAll(parts(young));
    come.removeAll(parts(old));
    List<String> files = files(gone, come);
    if (!files.isEmpty()) {
      String rest = gone.isEmpty() && come.isEmpty() ? "" : ", " + becomes(gone, come);
      return ": " + String.join(", ", files) + rest;
    }
    String was = shown(gone);
    String is = shown(come);
    if (come.isEmpty() || gone.isEmpty()) {
      return gone.isEmpty() ? ": " + is + " is new" : ": " + was + " is gone";
    }
    return was.equals(is) ? " changes" : ": " + becomes(gone, come);
  }

  private static String becomes(Set<String> gone, Set<String> come) {
    return shown(gone) + " becomes " + shown(come);
  }

  /** Extracts the parts that are files and describes each change by the purpose of the file. */
  private static List<String> files(Set<String> gone, Set<String> come) {
    Set<String> uses = new TreeSet<>();
    for (Set<String> some : List.of(gone, come)) {
      some.stream().filter(p -> digests(p) > 0).map(KeyChange::use).forEach(uses::add);
    }
    List<String> said = new ArrayList<>();
    for (String use : uses) {
      int before = takeOut(gone, use);
      int after = takeOut(come, use);
      String what = before < after ? "added" : before > after ? "removed" : "changed";
      said.add((use.isEmpty() || use.equals("files") ? "file " : use + " file ") + what);
    }
    return said;
  }

  private static int takeOut(Set<String> parts, String use) {
    int n = 0;
    for (String part : List.copyOf(parts)) {
      if (use(part).equals(use) || (digests(part) == 0 && part.equals(use + " none"))) {
        n += digests(part);
        parts.remove(part);
      }
    }
    return n;
  }

  private static String use(String part) {
    return DIGEST.matcher(part).replaceAll("").replaceAll(" +", " ").strip();
  }

  private static int digests(String part) {
    return (int) DIGEST.matcher(part).results().count();
  }

  private static Set<String> parts(String text) {
    return new LinkedHashSet<>(Arrays.stream(text.split("[,;] ?")).map(KeyChange::words).toList());
  }

  /** Replaces record names and key spelling, which are internal, by words. */
  private static String words(String part) {
    String plain =
        part.replaceAll("\\b[A-Z]\\w*\\[", " ")
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

  private static String cut(String whole) {
    String part =
        LONG_NUMBER.matcher(whole).replaceAll(m -> Digits.of(Double.parseDouble(m.group())));
    return part.length() <= LONGEST ? part : part.substring(0, LONGEST) + "...";
  }
}
