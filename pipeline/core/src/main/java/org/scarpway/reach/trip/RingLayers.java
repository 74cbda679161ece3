package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.ScratchFile;

/** Day of arrival, state and last night of each cell; each cell is written by one thread. */
final class RingLayers {
  final Bytes day;
  final Bytes state;

  /** Null if it is not told. */
  final Bytes lastNight;

  private final DayRingsRequest request;
  private final String vehicle;
  private final GridSpec spec;

  RingLayers(DayRingsRequest request, TraversalInput ground) {
    this.request = request;
    this.vehicle = ground.vehicle().name();
    this.spec = ground.field().spec();
    ScratchFile file = ground.field().scratch(3L * spec.cells());
    this.day = Bytes.of(spec.cells(), file);
    this.state = Bytes.of(spec.cells(), file);
    this.lastNight = request.tellsLastNight() ? Bytes.of(spec.cells(), file) : null;
  }

  /** The answer once all cells are decided; cells at the edge of the model are marked. */
  RingsAnswer told(List<String> warnings) {
    double cellM2 = spec.cellAreaM2();
    long[] surely = new long[request.days() + 1];
    double[] edgeM = new double[request.days() + 1];
    long possibly = 0;
    for (int cell = 0; cell < spec.cells(); cell++) {
      int row = cell / spec.cols();
      int col = cell % spec.cols();
      boolean topOrBottom = row == 0 || row == spec.rows() - 1;
      boolean side = col == 0 || col == spec.cols() - 1;
      if (state.get(cell) == ReachState.SURELY) {
        surely[day.get(cell)]++;
        if (topOrBottom || side) {
          edgeM[day.get(cell)] += topOrBottom ? spec.cellXM() : spec.cellYM();
          state.set(cell, DayRings.AT_EDGE);
        }
      } else if (state.get(cell) == ReachState.POSSIBLY) {
        possibly++;
      }
    }
    List<Double> areas = new ArrayList<>();
    List<Double> edges = new ArrayList<>();
    double m2 = 0;
    double m = 0;
    for (int k = 1; k <= request.days(); k++) {
      m2 += surely[k] * cellM2;
      m += edgeM[k];
      areas.add(m2);
      edges.add(m);
    }
    double possiblyM2 = possibly * cellM2;
    return (firstRow, rows) ->
        new DayRings(
            request,
            vehicle,
            layer(day, firstRow, rows),
            layer(state, firstRow, rows),
            lastNight == null ? null : layer(lastNight, firstRow, rows),
            areas,
            possiblyM2,
            edges,
            warnings);
  }

  private ByteGrid layer(Bytes all, int firstRow, int rows) {
    ByteGrid grid = ByteGrid.empty(spec.part(firstRow, 0, rows, spec.cols()));
    all.read(firstRow * spec.cols(), grid.values(), 0, grid.values().length);
    return grid;
  }
}
