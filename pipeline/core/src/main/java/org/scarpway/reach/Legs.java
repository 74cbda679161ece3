package org.scarpway.reach;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.reach.CorridorRequest.Stop;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/** Best ways from stop to stop of one corridor. */
final class Legs {
  private final String where;
  private final String vehicle;
  private final Workers workers;
  private final Progress progress;

  /**
   * @param where the corridor, for messages
   */
  Legs(String where, String vehicle, Workers workers, Progress progress) {
    this.where = where;
    this.vehicle = vehicle;
    this.workers = workers;
    this.progress = progress;
  }

  /**
   * Fronts of one leg.
   *
   * @param to null where it was not asked for
   */
  record Leg(Labels from, Labels to, int start, int end) {
    /** Cells of the corners in the order of travel. */
    int[] corners() {
      int[] back = Trace.toSource(from, end).cells();
      int[] there = new int[back.length];
      for (int k = 0; k < back.length; k++) {
        there[k] = back[back.length - 1 - k];
      }
      return there;
    }
  }

  /**
   * @param cells of the stops in the order of travel
   * @param quantity of which the ways cost least
   * @return with the fronts to the ends, which are kept for other questions
   */
  List<Leg> between(List<Stop> stops, int[] cells, MoveField field, Quantity quantity) {
    List<Pending> fronts = new ArrayList<>();
    for (int i = 0; i + 1 < cells.length; i++) {
      fronts.add(kept(field, quantity, Direction.OUT, cells[i]));
      fronts.add(kept(field, quantity, Direction.HOME, cells[i + 1]));
    }
    return legs(stops, cells, fronts, field);
  }

  /**
   * @param costs that no other question asks for
   * @return without the fronts to the ends
   */
  List<Leg> between(List<Stop> stops, int[] cells, Costs costs) {
    if (costs.field().beyondHeap()) {
      // Such questions come one after the other, each with fronts of its own.
      ScratchFile.giveBack();
    }
    List<Pending> fronts = new ArrayList<>();
    for (int i = 0; i + 1 < cells.length; i++) {
      Front front = Front.from(costs, Double.POSITIVE_INFINITY, cells[i]);
      fronts.add(new Pending(() -> front.help(progress), front::labels));
    }
    return legs(stops, cells, fronts, costs.field());
  }

  /**
   * @param fronts from each stop, or by turns from it and to the next
   */
  private List<Leg> legs(List<Stop> stops, int[] cells, List<Pending> fronts, MoveField field) {
    List<Runnable> work = new ArrayList<>();
    fronts.forEach(f -> work.add(f.help()));
    // Threads that run out of work help with the fronts that are not finished.
    fronts.forEach(f -> work.add(f.help()));
    spread("ways of " + where, fronts.size(), work, field);
    int n = cells.length - 1;
    int each = fronts.size() / n;
    List<Leg> legs = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      Labels from = fronts.get(each * i).labels().get();
      if (!from.reached(cells[i + 1])) {
        throw noWay(stops.get(i).name(), stops.get(i + 1).name());
      }
      Labels to = each == 2 ? fronts.get(each * i + 1).labels().get() : null;
      legs.add(new Leg(from, to, cells[i], cells[i + 1]));
    }
    return legs;
  }

  /**
   * Costs from every stop (row) to every other (column), infinite where there is no way; energy
   * without the part that only depends on the heights of both ends, which adds up to the same in
   * every order.
   */
  double[][] costs(int[] cells, MoveField field, Quantity quantity) {
    double[][] costs = new double[cells.length][cells.length];
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < cells.length; i++) {
      int row = i;
      work.add(
          () -> {
            Labels from = Fronts.spread(field, quantity, Direction.OUT, progress, cells[row]);
            for (int k = 0; k < cells.length; k++) {
              costs[row][k] = from.value(cells[k]);
            }
          });
    }
    spread("ways between all stops of " + where, work.size(), work, field);
    return costs;
  }

  private void spread(String what, int fronts, List<Runnable> work, MoveField field) {
    progress.begin(what, (long) fronts * field.spec().cells());
    workers.all(work);
    progress.end();
  }

  /** A front that any number of threads may help with, and its labels when all have returned. */
  private record Pending(Runnable help, Supplier<Labels> labels) {}

  private Pending kept(MoveField field, Quantity quantity, Direction direction, int stop) {
    Fronts.Spread front =
        Fronts.begin(field, quantity, direction, Double.POSITIVE_INFINITY, progress, stop);
    return new Pending(front::help, front::labels);
  }

  UserError noWay(String from, String to) {
    return UserError.of(
        where,
        "no way from '" + from + "' to '" + to + "' for vehicle '" + vehicle + "'",
        "stops that are joined by driveable ground",
        "move a stop or choose a vehicle with wider limits");
  }
}
