package org.scarpway.flow;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * Makes a failing job small: takes away one key, list entry, table row or strip of ground after the
 * other as long as it still fails by the same cause.
 */
final class SmallerJob {
  private static final int MOST_TRIALS = 150;

  private final String cause;
  private final Path scratch;
  private JobFiles best;
  private int trials;

  private SmallerJob(JobFiles job, String cause, Path scratch) {
    this.best = job;
    this.cause = cause;
    this.scratch = scratch;
  }

  static JobFiles of(JobFiles job, String cause, Path scratch) throws IOException {
    SmallerJob s = new SmallerJob(job, cause, scratch);
    if (s.fails(job)) {
      s.shrink();
    }
    return s.best;
  }

  private void shrink() throws IOException {
    boolean smaller = true;
    while (smaller && trials < MOST_TRIALS) {
      smaller = false;
      for (String name : List.copyOf(best.files().keySet())) {
        Object content = best.files().get(name);
        if (name.endsWith(".asc")) {
          smaller |= name.equals("ground.asc") && crop();
        } else if (name.endsWith(".csv")) {
          smaller |= rows(name, ((String) content).lines().toList());
        } else if (!(content instanceof String)) {
          smaller |= branches(name);
        }
      }
    }
    unnamed();
  }

  private boolean fails(JobFiles job) throws IOException {
    trials++;
    boolean thorough = cause.contains("second run") || cause.contains("two threads");
    return RandomJobs.trial(job, scratch, thorough).faults().stream()
        .anyMatch(f -> RandomJobs.cause(f).equals(cause));
  }

  private boolean keepIfFails(JobFiles smaller) throws IOException {
    if (trials < MOST_TRIALS && fails(smaller)) {
      best = smaller;
      return true;
    }
    return false;
  }

  /** Keys and list entries of a tree, the largest first. */
  private boolean branches(String name) throws IOException {
    boolean smaller = false;
    for (int at = 0; ; at++) {
      JobFiles copy = best.copy();
      List<Runnable> cuts = new ArrayList<>();
      cuts(copy.files().get(name), cuts::add);
      if (at >= cuts.size()) {
        return smaller;
      }
      cuts.get(at).run();
      if (keepIfFails(copy)) {
        smaller = true;
        at--;
      }
    }
  }

  private static void cuts(Object tree, Consumer<Runnable> cut) {
    if (tree instanceof Map<?, ?> map) {
      for (Object key : List.copyOf(map.keySet())) {
        cut.accept(() -> map.remove(key));
      }
      map.values().forEach(v -> cuts(v, cut));
    } else if (tree instanceof List<?> list) {
      for (int i = 0; i < list.size(); i++) {
        int at = i;
        cut.accept(() -> list.remove(at));
      }
      list.forEach(v -> cuts(v, cut));
    }
  }

  private boolean rows(String name, List<String> lines) throws IOException {
    boolean smaller = false;
    for (int i = lines.size() - 1; i > 0; i--) {
      List<String> fewer = new ArrayList<>(lines);
      fewer.remove(i);
      JobFiles copy = best.copy();
      copy.files().put(name, String.join("\n", fewer) + "\n");
      if (keepIfFails(copy)) {
        lines = fewer;
        smaller = true;
      }
    }
    return smaller;
  }

  /** Strips off each side of the ground, large ones first; other rasters stay as they are. */
  private boolean crop() throws IOException {
    boolean smaller = false;
    for (int side = 0; side < 4; side++) {
      for (int strip = 64; strip >= 1; strip /= 2) {
        JobFiles copy = best.copy();
        String cropped = TextGrid.of((String) copy.files().get("ground.asc")).without(side, strip);
        if (cropped == null) {
          continue;
        }
        copy.files().put("ground.asc", cropped);
        smaller |= keepIfFails(copy);
      }
    }
    return smaller;
  }

  /** Files that nothing names any more. */
  private void unnamed() throws IOException {
    for (String name : List.copyOf(best.files().keySet())) {
      if (!name.equals("job.yaml")) {
        JobFiles copy = best.copy();
        copy.files().remove(name);
        if (fails(copy)) {
          best = copy;
        }
      }
    }
  }
}
