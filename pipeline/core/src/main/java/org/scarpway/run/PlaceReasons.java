package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.WhyNot;
import org.scarpway.reach.question.WhyNot.Crossing;
import org.scarpway.reach.trip.WhyNotSearch;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.unit.PlaceGround;
import org.scarpway.run.unit.ReachAnswers;
import org.scarpway.run.unit.ReachInput;
import org.scarpway.run.unit.ReachProducts;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Vehicle;

/** Says why a question does not reach a place and what would reach it, one line each. */
final class PlaceReasons {
  /** Longer crossings are told by the names of their limits alone. */
  private static final int MOST_CELLS = 400;

  private final OpenJob open;
  private final StageGraph graph;
  private final ReachAnswers answers;
  private final PlaceGround ground;

  PlaceReasons(OpenJob open, StageGraph graph, ReachAnswers answers, PlaceGround ground) {
    this.open = open;
    this.graph = graph;
    this.answers = answers;
    this.ground = ground;
  }

  /**
   * Returns no lines for a place that is surely reached, by every stay that applies there.
   *
   * @param folder products of the question
   * @param end what ends the reach there
   */
  List<String> of(Job.ReachEntry question, Path folder, int cell, String end) {
    GridSpec spec = open.spec();
    BitSet surely = surely(folder.resolve("state.tif"), spec);
    List<Target> asked = new ArrayList<>();
    List<String> ends = new ArrayList<>();
    for (ReachResult.TargetReach t : ReachProducts.targets(folder)) {
      if (!t.reached() && spec.cellOf(t.target().xM(), t.target().yM()) == cell) {
        asked.add(t.target());
        ends.add("target '" + t.target().name() + "': " + t.end());
      }
    }
    boolean told = asked.stream().anyMatch(t -> Math.abs(t.stayS() - question.stayS()) < 0.05);
    if (!surely.get(cell) && !told) {
      double x = spec.xM(cell % spec.cols());
      double y = spec.yM(cell / spec.cols());
      asked.add(0, new Target("place", x, y, 1, question.stayS(), 0));
      ends.add(0, end);
    }
    List<String> lines = new ArrayList<>();
    if (!asked.isEmpty()) {
      ReachInput input = answers.input(graph, open.job(), question);
      List<WhyNot> reasons =
          new WhyNotSearch(
                  input.request(),
                  input.ground(),
                  input.walkHome(),
                  surely,
                  true,
                  open.workers(),
                  Progress.NONE)
              .of(asked);
      for (int i = 0; i < asked.size(); i++) {
        lines.add("why not: " + ends.get(i));
        if (i > 0 && reasons.get(i).equals(reasons.get(i - 1))) {
          lines.add("  as above");
        } else {
          lines.addAll(lines(reasons.get(i), JobVehicles.vehicle(open.job(), question.vehicle())));
        }
      }
    }
    return lines;
  }

  private List<String> lines(WhyNot why, Vehicle vehicle) {
    List<String> all = new ArrayList<>(why.amounts());
    all.add(why.rescue());
    all.add(why.nearestText());
    all.add(why.crossingText());
    if (why.crossing() != null && why.crossing().cells().size() <= MOST_CELLS) {
      all.addAll(toCross(why.crossing(), vehicle));
    }
    all.add(why.changeText());
    all.removeIf(String::isEmpty);
    return all.stream().map(line -> "  " + line).toList();
  }

  /** What is exceeded on the way over closed ground, each cell on its easiest heading. */
  private List<String> toCross(Crossing crossing, Vehicle vehicle) {
    GridSpec spec = open.spec();
    Map<String, CellMobility.Check> most = new LinkedHashMap<>();
    for (int cell : crossing.cells()) {
      CellMobility here =
          ground.explain(
              ground.at(spec.xM(cell % spec.cols()), spec.yM(cell / spec.cols())), vehicle);
      for (CellMobility.Check c : exceeded(here)) {
        most.merge(c.what(), c, (a, b) -> b.got() > a.got() ? b : a);
      }
    }
    String all =
        String.join(
            ", ",
            most.values().stream()
                .filter(c -> !c.unit().equals(CellMobility.Check.PROBABILITY))
                // Rough ground slows down; it closes only where it is named as the limit.
                .filter(
                    c ->
                        c.limit() != Limit.ROUGHNESS
                            || crossing.limits().contains(c.limit().label()))
                .map(CheckLines::exceeded)
                .distinct()
                .toList());
    return all.isEmpty() ? List.of() : List.of("  the most on the way over it: " + all);
  }

  private static List<CellMobility.Check> exceeded(CellMobility here) {
    List<CellMobility.Check> all =
        new ArrayList<>(here.checks().stream().filter(c -> !c.held()).toList());
    here.headings().stream()
        .map(h -> h.checks().stream().filter(c -> !c.held()).toList())
        .min(
            Comparator.comparingDouble(
                over -> over.stream().mapToDouble(CellMobility.Check::use).max().orElse(0)))
        .ifPresent(all::addAll);
    return all;
  }

  private static BitSet surely(Path state, GridSpec spec) {
    BitSet cells = new BitSet(spec.cells());
    try (RasterRows<byte[]> rows = RasterRows.open(state, CellKind.UINT8)) {
      byte[] row = new byte[spec.cols()];
      for (int r = 0; r < spec.rows(); r++) {
        rows.read(r, 1, row);
        for (int c = 0; c < row.length; c++) {
          cells.set(r * spec.cols() + c, row[c] == ReachState.SURELY);
        }
      }
    }
    return cells;
  }
}
