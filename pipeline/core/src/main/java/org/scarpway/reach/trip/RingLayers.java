package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.ScratchFile;
import org.scarpway.vehicle.TraversalCost;

/** Day of arrival, state and last night of each cell; each cell is written by one thread. */
final class RingLayers {
  final Bytes day;
  final Bytes state;

  /** Null if it is not told. */
  final Bytes lastNight;

  private final DayRingsRequest request;
  private final String vehicle;
  private final GridSpec spec;
  private final TraversalCost field;

  // First and last cell with a verdict of each row and column.
  private final int[] left;
  private final int[] right;
  private final int[] top;
  private final int[] bottom;

  RingLayers(DayRingsRequest request, TraversalInput ground) {
    this.request = request;
    this.vehicle = ground.vehicle().name();
    this.field = ground.field();
    this.spec = field.spec();
    this.left = new int[spec.rows()];
    this.right = new int[spec.rows()];
    this.top = new int[spec.cols()];
    this.bottom = new int[spec.cols()];
    ScratchFile file = ground.field().scratch(3L * spec.cells());
    this.day = Bytes.of(spec.cells(), file);
    this.state = Bytes.of(spec.cells(), file);
    this.lastNight = request.tellsLastNight() ? Bytes.of(spec.cells(), file) : null;
  }

  /** The answer once all cells are decided; cells at the edge of the model are marked. */
  RingsAnswer told(List<String> warnings) {
    double cellM2 = spec.cellAreaM2();
    ends();
    long[] surely = new long[request.days() + 1];
    double[] edgeM = new double[request.days() + 1];
    long possibly = 0;
    for (int cell = 0; cell < spec.cells(); cell++) {
      int row = cell / spec.cols();
      int col = cell % spec.cols();
      boolean topOrBottom = row <= top[col] || row >= bottom[col];
      boolean side = col <= left[row] || col >= right[row];
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

  /** Finds where verdicts begin and end in each row and column: beyond, the model knows nothing. */
  private void ends() {
    Arrays.fill(left, spec.cols());
    Arrays.fill(right, -1);
    Arrays.fill(top, spec.rows());
    Arrays.fill(bottom, -1);
    for (int cell = 0; cell < spec.cells(); cell++) {
      int row = cell / spec.cols();
      int col = cell % spec.cols();
      if (judged(cell, row, col)) {
        left[row] = Math.min(left[row], col);
        right[row] = col;
        top[col] = Math.min(top[col], row);
        bottom[col] = row;
      }
    }
  }

  /** Whether a cell has a verdict: at the rim its slope lacks neighbours, elsewhere heights. */
  private boolean judged(int cell, int row, int col) {
    boolean rim = row == 0 || col == 0 || row == spec.rows() - 1 || col == spec.cols() - 1;
    return field.allowed(cell) != 0 || !(rim || Float.isNaN(field.gradEast(cell)));
  }

  private ByteGrid layer(Bytes all, int firstRow, int rows) {
    ByteGrid grid = ByteGrid.empty(spec.part(firstRow, 0, rows, spec.cols()));
    all.read(firstRow * spec.cols(), grid.values(), 0, grid.values().length);
    return grid;
  }
}
