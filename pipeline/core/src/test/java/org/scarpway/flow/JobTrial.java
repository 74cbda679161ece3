package org.scarpway.flow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Runs one job as a user would and holds it to what every job must keep: it ends with 0, 2 or 3;
 * with 2 and 3 by clear lines; after 2 nothing is written; after 3 what else was asked is answered;
 * after 0 every product is there; products are consistent, and neither the number of threads nor a
 * second run changes a byte.
 */
final class JobTrial {
  /** What no user may read: names of classes, traces, numbers that are none. */
  private static final Pattern FORBIDDEN =
      Pattern.compile(
          "\\bNaN\\b|\\bInfinity\\b|\u221e|2562047788015215|9223372036854775807|2147483647"
              + "|\\b(java|javax|org|com)(\\.\\w+)+\\.[A-Z]\\w*|\\w+(Exception|Error)\\b"
              + "|^\\s+at |internal error|\\bundefined\\b",
          Pattern.MULTILINE);

  /** Digits that no planner reads. The scale of a map is near 1 and needs them, as do places. */
  private static final Pattern UNROUNDED =
      Pattern.compile(
          "\\b[1-9]\\d*\\.\\d{4,}(?! (to|times as long))|\\b0\\.0*[1-9]\\d{4,}|\\d[eE][+-]\\d");

  private static final Pattern SCRIPT = Pattern.compile("(?s)<(script|style)\\b.*?</\\1>");
  private static final int LONGEST_LINE = 1000;

  private final Path folder;
  private final Set<String> faults = new LinkedHashSet<>();
  private int code = -1;
  private String said = "";

  private JobTrial(Path folder) {
    this.folder = folder;
  }

  /**
   * How a job ended and what is wrong with that; nothing should be.
   *
   * @param said its first line on stderr
   */
  record Ended(int code, String said, Set<String> faults) {}

  /**
   * @param folder an empty folder; products go into it too
   * @param thorough whether the job is run again with the same products and with other threads
   */
  static Ended run(JobFiles job, Path folder, boolean thorough) throws IOException {
    JobTrial trial = new JobTrial(folder);
    trial.run(job.write(folder.resolve("job")), thorough);
    return new Ended(trial.code, trial.said, trial.faults);
  }

  private void run(Path job, boolean thorough) throws IOException {
    Path out = folder.resolve("out");
    Flow.Outcome o = scarpway("run", job, "--out", out, "--quiet", "--threads", 1);
    if (o == null) {
      return;
    }
    code = o.code();
    said = first(o.err());
    switch (code) {
      case 0 -> {
        said("stderr", o.err());
        products(out.resolve("any"));
        if (thorough && faults.isEmpty()) {
          again(job, out, o.out());
        }
      }
      case 2 -> {
        line(o.err());
        if (!o.out().isBlank()) {
          faults.add("exit 2 with a summary: " + first(o.out()));
        }
        if (Files.exists(out) && !Flow.files(out).isEmpty()) {
          faults.add("exit 2 after files were written: " + first(o.err()));
        }
      }
      case 3 -> {
        line(o.err());
        products(out.resolve("any"));
      }
      default -> faults.add("exit " + code + ": " + first(o.err()) + whereFrom(job));
    }
    said("stdout", o.out());
    look(UNROUNDED, "stdout", o.out().replaceAll("near -?[0-9.]+, -?[0-9.]+;", ""));
  }

  /** The outcome, or null where the program threw at its caller. */
  private Flow.Outcome scarpway(Object... args) {
    try {
      return Flow.scarpway(args);
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError | AssertionError e) {
      faults.add("thrown at the caller: " + e + " at " + e.getStackTrace()[0]);
      return null;
    }
  }

  private void line(String err) {
    if (err.isBlank()) {
      faults.add("exit " + code + " without a word");
    }
    for (String l : err.lines().toList()) {
      if (l.isBlank() || l.length() > LONGEST_LINE) {
        faults.add("exit " + code + " with an unclear line: '" + l + "'");
      }
    }
    said("stderr", err);
  }

  private void said(String where, String text) {
    look(FORBIDDEN, where, text);
  }

  private void look(Pattern forbidden, String where, String text) {
    Matcher m = forbidden.matcher(text);
    while (m.find()) {
      int from = Math.max(0, text.lastIndexOf('\n', m.start()) + 1);
      int to = text.indexOf('\n', m.end());
      String line = text.substring(from, to < 0 ? text.length() : to);
      int at = m.start() - from;
      faults.add(
          where
              + " says "
              + m.group()
              + ": "
              + line.substring(Math.max(0, at - 120), Math.min(line.length(), at + 120)));
    }
  }

  /** First frame of the failure, which the user is not shown. */
  private String whereFrom(Path job) {
    Path anew = folder.resolve("anew");
    Flow.Outcome o = scarpway("run", job, "--out", anew, "--quiet", "--threads", 1, "--debug");
    return o == null
        ? ""
        : " " + o.err().lines().filter(l -> l.startsWith("\tat org.scarpway")).limit(3).toList();
  }

  private static String first(String text) {
    return text.lines().findFirst().orElse("");
  }

  private void products(Path run) throws IOException {
    if (!Files.isDirectory(run)) {
      return;
    }
    for (String name : Flow.files(run)) {
      Path file = run.resolve(name);
      if (name.endsWith(".csv")) {
        said(name, Files.readString(file));
      } else if (name.endsWith(".html")) {
        said(name, SCRIPT.matcher(Files.readString(file)).replaceAll(""));
      }
    }
    faults.addAll(JobProducts.faults(run, folder.resolve("job/job.yaml"), code == 0));
  }

  /** A second run reuses everything; two threads and a fresh folder give the same bytes. */
  private void again(Path job, Path out, String summary) throws IOException {
    SortedMap<String, String> before = Flow.digests(out.resolve("any"), JobTrial::lasts);
    Flow.Outcome o = scarpway("run", job, "--out", out, "--quiet", "--threads", 2);
    if (o == null || o.code() != 0) {
      faults.add("the second run ends otherwise: " + (o == null ? "thrown" : first(o.err())));
      return;
    }
    Matcher m = Pattern.compile("(\\d+) stages in .*, (\\d+) of them reused").matcher(o.out());
    if (!m.find() || !m.group(1).equals(m.group(2))) {
      faults.add(
          "the second run computes anew: "
              + o.out().lines().filter(l -> l.contains("stages in")).toList());
    }
    same("second run", before, Flow.digests(out.resolve("any"), JobTrial::lasts));
    Path two = folder.resolve("two");
    Flow.Outcome t = scarpway("run", job, "--out", two, "--quiet", "--threads", 2, "--no-store");
    if (t == null || t.code() != 0) {
      faults.add("with two threads it ends otherwise: " + (t == null ? "thrown" : first(t.err())));
      return;
    }
    same("two threads", before, Flow.digests(two.resolve("any"), JobTrial::lasts));
    List<String> lines = new ArrayList<>(summary.lines().toList());
    List<String> others = new ArrayList<>(t.out().lines().toList());
    lines.removeIf(l -> l.contains("stages in"));
    others.removeIf(l -> l.contains("stages in"));
    if (!lines.equals(others)) {
      faults.add("two threads say something else");
    }
  }

  /** Times of a run stand in run.json only. */
  private static boolean lasts(String name) {
    return !name.equals("run.json") && !name.equals(".lock");
  }

  private void same(String what, SortedMap<String, String> a, SortedMap<String, String> b) {
    Set<String> names = new LinkedHashSet<>(a.keySet());
    names.addAll(b.keySet());
    names.removeIf(n -> a.getOrDefault(n, "").equals(b.get(n)));
    if (!names.isEmpty()) {
      faults.add(what + " changes " + names);
    }
  }
}
