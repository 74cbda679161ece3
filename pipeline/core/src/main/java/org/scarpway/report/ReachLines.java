package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;

/**
 * The lines of a reach on the map: the edge of each band inside the ground that is surely reached,
 * and the edge of that ground itself, parted by what ends the reach there. Where ground that cannot
 * be driven ends it, there is no line: the class of the ground shows it.
 */
final class ReachLines {
  /** Grids of more cells a side are merged first: finer lines cannot be told apart on the map. */
  private static final int MOST_CELLS = 1500;

  private static final int MOST_BANDS = 60;
  private static final int EDGE = 64;

  /** Edge towards ground that is possibly reached. */
  private static final int UNDECIDED = EDGE + 60;

  /** Cells of the ground, per side, that one cell of the lines stands for. */
  final int shrink;

  final List<Named> bands = new ArrayList<>();
  final List<Named> edges = new ArrayList<>();

  /** Lines of one name, in halves of a cell of {@link #shrink} cells of the ground. */
  record Named(String name, List<int[]> lines) {}

  ReachLines(ReachResult reach) {
    GridSpec spec = reach.state().spec();
    int rows = spec.rows();
    int cols = spec.cols();
    int last = Math.min(MOST_BANDS, reach.request().bands().size()) + 1;
    char[] rank = new char[spec.cells()];
    char[] end = new char[spec.cells()];
    for (int i = 0; i < rank.length; i++) {
      byte state = reach.state().values()[i];
      int band = reach.band().values()[i] & 0xFF;
      rank[i] = (char) (state != ReachState.SURELY ? 0 : band == 0 ? last : Math.min(last, band));
      end[i] =
          (char)
              (state == ReachState.POSSIBLY
                  ? UNDECIDED - EDGE
                  : reach.binding().values()[i] & 0xFF);
    }
    int merged = 1;
    while (Math.max(rows, cols) > MOST_CELLS) {
      rank = TilePack.halved(rank, cols, rows, TilePack.Halving.WORST_BAND);
      end = TilePack.halved(end, cols, rows, TilePack.Halving.ANY_CAUSE);
      rows = (rows + 1) / 2;
      cols = (cols + 1) / 2;
      merged *= 2;
    }
    this.shrink = merged;
    char[] ranks = rank;
    char[] ends = end;
    Boundaries lines = new Boundaries(rows, cols, (a, b) -> kind(ranks, ends, a, b));
    for (int k = 1; k < last; k++) {
      String name = reach.request().bands().get(k - 1).label();
      bands.add(new Named(name, lines.lines(k)));
    }
    for (ReachEnd e : ReachEnd.values()) {
      add("ends: " + e.label(), lines.lines(EDGE + e.code()));
    }
    add("only possibly beyond", lines.lines(UNDECIDED));
  }

  private void add(String name, List<int[]> lines) {
    if (!lines.isEmpty()) {
      edges.add(new Named(name, lines));
    }
  }

  private static int kind(char[] rank, char[] end, int a, int b) {
    if (rank[a] == rank[b]) {
      return 0;
    }
    if (rank[a] > 0 && rank[b] > 0) {
      return Math.min(rank[a], rank[b]);
    }
    int reason = rank[a] == 0 ? end[a] : end[b];
    return reason == 0 || reason == ReachEnd.NO_GO.code() || reason == ReachEnd.CUT_OFF.code()
        ? 0
        : EDGE + reason;
  }
}
