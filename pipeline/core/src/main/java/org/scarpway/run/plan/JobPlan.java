package org.scarpway.run.plan;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.ScratchNeeds;
import org.scarpway.run.product.Durations;
import org.scarpway.run.store.KeyChange;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageKey;
import org.scarpway.run.store.StageRecord;
import org.scarpway.run.store.StageStore;
import org.scarpway.run.store.StageTimes;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;

/**
 * The plan of a job's run: for every stage the source of its products, the reason if it has to be
 * computed, and its estimated resources. Making a plan runs and writes nothing.
 *
 * @param rows the stages in their order
 * @param report the drawing of the report after them
 * @param openingS estimated time of reading and checking the job before its first stage
 * @param scratchMb estimate (MB) of the temporary files that exist at one time during the run
 * @param rateSource where the estimated times come from
 */
public record JobPlan(
    String job,
    List<Row> rows,
    Row report,
    double openingS,
    long heapMb,
    long heapLimitMb,
    long diskMb,
    long scratchMb,
    String rateSource) {
  /** The name of the report where stages are named. */
  public static final String REPORT = "report";

  /** Bytes per cell of the twelve wavefronts that a question asks for at most, as a rule. */
  private static final long FRONT_BYTES = 12 * 9;

  /** The action of a run on a stage. */
  public enum State {
    HERE("unchanged"),
    STORE("from the store"),
    RUN("run");

    private final String word;

    State(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }
  }

  /**
   * One stage.
   *
   * @param work what the stage is expected to do
   * @param why the ingredients that changed since the existing products were made, or that there
   *     are none
   */
  public record Row(
      String id,
      State state,
      long cells,
      StageWork work,
      double seconds,
      double diskMb,
      List<String> why) {
    public Row {
      why = List.copyOf(why);
    }
  }

  public JobPlan {
    rows = List.copyOf(rows);
  }

  /**
   * Compares the stages of a job with the finished ones in its folder and in the store.
   *
   * @param redraw why the report there does not hold for the stages and settings of the job; empty
   *     if it does
   */
  public static JobPlan of(
      OpenJob open, StageGraph graph, RunOptions options, StageStore store, List<String> redraw) {
    Path folder = options.out().resolve(open.job().name());
    StageRates rates = StageRates.of(StageTimes.read(options.store()), open.workers());
    Set<String> kinds = new HashSet<>();
    List<Row> rows = new ArrayList<>();
    for (StageNode<?> node : graph.nodes()) {
      StageFolder at = new StageFolder(folder, node.id());
      long cells = node.unit().cells();
      State state = State.RUN;
      if (!options.fresh() && at.holds(node.key(), open.digests().files())) {
        state = State.HERE;
      } else if (!options.fresh() && store.holds(node.key())) {
        state = State.STORE;
      }
      boolean runs = state == State.RUN;
      StageWork work = work(open, node, options);
      rows.add(
          new Row(
              node.id(),
              state,
              cells,
              work,
              runs ? rates.seconds(work, kinds.add(work.kind())) : 0,
              runs ? rates.diskMb(work) : 0,
              runs ? why(node, at, options) : List.of()));
    }
    Row report = report(rows, redraw, options, rates, StageWork.of(open, REPORT));
    boolean runs = rows.stream().anyMatch(r -> r.state == State.RUN);
    return new JobPlan(
        open.job().name(),
        rows,
        report,
        runs ? rates.seconds(StageWork.of(open, StageWork.OPENING), true) : 0,
        open.strips().heapMb(open.job(), graph.nodes().stream().map(StageNode::id).toList()),
        Runtime.getRuntime().maxMemory() >> 20,
        (long) Math.ceil(rows.stream().mapToDouble(Row::diskMb).sum() + report.diskMb())
            + frontsMb(rows, graph, options)
            + realisationMb(rows, open),
        ScratchNeeds.mb(open),
        rates.source());
  }

  private static Row report(
      List<Row> rows, List<String> redraw, RunOptions options, StageRates rates, StageWork work) {
    long cells = Math.round(work.work());
    List<String> why = redraw;
    if (options.fresh()) {
      why = List.of("--fresh");
    } else if (rows.stream().anyMatch(r -> r.state == State.RUN)) {
      why = List.of("stages run");
    }
    if (why.isEmpty()) {
      return new Row(REPORT, State.HERE, cells, work, 0, 0, why);
    }
    return new Row(
        REPORT, State.RUN, cells, work, rates.seconds(work, true), rates.diskMb(work), why);
  }

  private static long realisationMb(List<Row> rows, OpenJob open) {
    boolean runs = rows.stream().anyMatch(r -> r.id.equals("sites") && r.state == State.RUN);
    return runs ? open.strips().realisationMb(open.job()) : 0;
  }

  /** Upper estimate of the wavefronts that the run adds to the store (MB). */
  private static long frontsMb(List<Row> rows, StageGraph graph, RunOptions options) {
    long bytes = 0;
    for (int i = 0; i < rows.size(); i++) {
      boolean asks = graph.nodes().get(i).unit().fronts() != null;
      bytes += asks && rows.get(i).state == State.RUN ? FRONT_BYTES * rows.get(i).cells : 0;
    }
    return options.store() == null ? 0 : Math.min(bytes, options.frontBytes()) >> 20;
  }

  private static StageWork work(OpenJob open, StageNode<?> node, RunOptions options) {
    StageWork anew = StageWork.of(open, node.id());
    if (keepsAllButBands(node, options)) {
      return anew.ofBands();
    }
    return options.openFronts().kept(node.unit().fronts()) > 0 ? anew.besideFronts() : anew;
  }

  private static boolean keepsAllButBands(StageNode<?> node, RunOptions options) {
    StageKey answer = node.unit().kept();
    return answer != null && options.openFronts().holds(answer.hex());
  }

  private static List<String> why(StageNode<?> node, StageFolder folder, RunOptions options) {
    List<String> why = new ArrayList<>(why(node.key(), folder, options.fresh()));
    if (keepsAllButBands(node, options)) {
      why.add("all but its bands kept from an earlier run");
      return why;
    }
    int kept = options.openFronts().kept(node.unit().fronts());
    if (kept > 0) {
      why.add("up to " + kept + " wavefronts kept from earlier runs");
    }
    return why;
  }

  private static List<String> why(StageKey key, StageFolder folder, boolean fresh) {
    if (fresh) {
      return List.of("--fresh");
    }
    StageRecord there = folder.record();
    if (there == null) {
      return List.of("no products yet");
    }
    if (there.key().equals(key.hex())) {
      return List.of("products are missing or damaged");
    }
    List<String> changes = KeyChange.between(there.madeFrom(), key.ingredients());
    return changes.isEmpty() ? List.of("made from other input") : changes;
  }

  public boolean runsNothing() {
    return rows.stream().noneMatch(r -> r.state == State.RUN);
  }

  public double seconds() {
    return rows.stream().mapToDouble(Row::seconds).sum() + report.seconds + openingS;
  }

  /** Returns the stages and the report. */
  public List<Row> allRows() {
    return Stream.concat(rows.stream(), Stream.of(report)).toList();
  }

  /** Returns the plan as a table for people. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    long running = rows.stream().filter(r -> r.state == State.RUN).count();
    lines.add(
        String.format(
            Locale.ROOT,
            "[%s] plan: %d of %d stages to run, about %s (%s), heap %,d of %,d MB, %,d MB on disk%s",
            job,
            running,
            rows.size(),
            Durations.text(seconds()),
            rateSource,
            heapMb,
            heapLimitMb,
            diskMb,
            scratchMb == 0
                ? ""
                : String.format(Locale.ROOT, ", about %,d MB of scratch files", scratchMb)));
    int width = allRows().stream().mapToInt(r -> r.id.length()).max().orElse(0);
    for (Row r : allRows()) {
      StringBuilder s = new StringBuilder();
      s.append(
          String.format(
              Locale.ROOT, "  %-" + width + "s  %-14s %,13d cells", r.id, r.state.word(), r.cells));
      if (r.state == State.RUN) {
        s.append(String.format(Locale.ROOT, "  %8.1f s  %8.1f MB  ", r.seconds, r.diskMb));
        s.append(String.join("; ", r.why));
      }
      lines.add(s.toString());
    }
    return lines;
  }
}
