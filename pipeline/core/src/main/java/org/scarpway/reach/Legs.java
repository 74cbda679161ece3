package org.scarpway.reach;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.CorridorRequest.Stop;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
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
   * @param factor multiplies the cost of each cell, null for none
   * @param both whether the fronts to the ends are wanted as well
   */
  List<Leg> between(
      List<Stop> stops,
      int[] cells,
      MoveField field,
      Quantity quantity,
      float[] factor,
      boolean both) {
    int n = cells.length - 1;
    Labels[] from = new Labels[n];
    Labels[] to = new Labels[n];
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      int leg = i;
      work.add(() -> from[leg] = front(field, quantity, Direction.OUT, cells[leg], factor));
      if (both) {
        work.add(() -> to[leg] = front(field, quantity, Direction.HOME, cells[leg + 1], factor));
      }
    }
    spread("ways of " + where, work, field);
    List<Leg> legs = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (!from[i].reached(cells[i + 1])) {
        throw noWay(stops.get(i).name(), stops.get(i + 1).name());
      }
      legs.add(new Leg(from[i], to[i], cells[i], cells[i + 1]));
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
            Labels from = front(field, quantity, Direction.OUT, cells[row], null);
            for (int k = 0; k < cells.length; k++) {
              costs[row][k] = from.value(cells[k]);
            }
          });
    }
    spread("ways between all stops of " + where, work, field);
    return costs;
  }

  private void spread(String what, List<Runnable> work, MoveField field) {
    progress.begin(what, (long) work.size() * field.spec().cells());
    workers.all(work);
    progress.end();
  }

  private Labels front(
      MoveField field, Quantity quantity, Direction direction, int stop, float[] factor) {
    return factor == null
        ? Fronts.spread(field, quantity, direction, progress, stop)
        : Front.spread(new Costs(field, quantity, direction, factor), progress, stop);
  }

  UserError noWay(String from, String to) {
    return UserError.of(
        where,
        "no way from '" + from + "' to '" + to + "' for vehicle '" + vehicle + "'",
        "stops that are joined by driveable ground",
        "move a stop or choose a vehicle with wider limits");
  }
}
