package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.report.TilePack.Halving;

/**
 * The reachable area as classes: code k is band k surely reached, {@value #POSSIBLY} + k is band k
 * possibly reached; one more code after the last band is ground reached beyond it.
 */
final class ReachBands {
  private static final int POSSIBLY = 60;
  private static final int MOST_BANDS = 40;

  final List<ClassStyle> styles = new ArrayList<>();
  final long[] cells;

  /**
   * Cumulative number of cells up to and including each band, separately for surely and possibly.
   */
  final long[] inside;

  /** The codes of all cells. */
  final ByteGrid merged;

  /** The codes of the pixels of an image. */
  final byte[] codes;

  final boolean[] edges;
  final List<BandLabel> labels = new ArrayList<>();

  /** The label of a band at a point on its outer edge, in grid coordinates (m). */
  record BandLabel(double xM, double yM, String text) {}

  private final PixelGrid pixels;
  private final ReachResult reach;
  private final int bands;
  private final byte[] end;

  ReachBands(PixelGrid pixels, ReachResult reach) {
    this.pixels = pixels;
    this.reach = reach;
    this.bands = Math.min(MOST_BANDS, reach.request().bands().size());
    this.merged = merged();
    this.cells = LayerFactory.count(merged);
    this.inside = cells.clone();
    for (int k = 2; k <= bands + 1; k++) {
      inside[k] += inside[k - 1];
      inside[POSSIBLY + k] += inside[POSSIBLY + k - 1];
    }
    this.codes = pixels.merged(merged, Halving.WORST_BAND);
    this.end = pixels.merged(reach.binding(), Halving.ANY_CAUSE);
    this.edges = new boolean[codes.length];
    addStyles();
    addEdgesAndLabels();
  }

  private ByteGrid merged() {
    GridSpec spec = reach.state().spec();
    byte[] state = reach.state().values();
    byte[] band = reach.band().values();
    byte[] out = new byte[state.length];
    for (int i = 0; i < out.length; i++) {
      if (state[i] != 0) {
        int b = band[i] & 0xFF;
        int code = b == 0 || b > bands ? bands + 1 : b;
        out[i] = (byte) (state[i] == ReachState.SURELY ? code : POSSIBLY + code);
      }
    }
    return new ByteGrid(spec, out);
  }

  private void addStyles() {
    for (int certain = 0; certain < 2; certain++) {
      int base = certain == 0 ? 0 : POSSIBLY;
      String how = certain == 0 ? "surely" : "possibly";
      Pattern pattern = certain == 0 ? Pattern.PLAIN : Pattern.MESH;
      for (int k = 1; k <= bands; k++) {
        double share = bands == 1 ? 0.6 : 1 - 0.72 * (k - 1) / (bands - 1);
        String label = how + " within " + reach.request().bands().get(k - 1).label() + " in all";
        styles.add(new ClassStyle(base + k, label, colour(certain, share), 165, pattern));
      }
      String label = how + (bands == 0 ? " reachable" : " reachable at all");
      styles.add(new ClassStyle(base + bands + 1, label, colour(certain, 0.02), 165, pattern));
    }
  }

  /** Ground reached possibly has the colour of its band mixed with white. */
  private static int colour(int certain, double share) {
    int rgb = Palette.ramp(share);
    return certain == 0 ? rgb : Palette.mix(rgb, 0xFFFFFF, 0.5);
  }

  /** Returns 1 to bands + 1 on reachable ground, 0 elsewhere. */
  private int rank(int pixel) {
    int code = codes[pixel];
    return code > POSSIBLY ? code - POSSIBLY : code;
  }

  private void addEdgesAndLabels() {
    double[] best = new double[bands + 2];
    int[] at = new int[bands + 2];
    GridSpec spec = pixels.spec();
    double baseX = (reach.request().baseXM() - spec.westM()) / pixels.pixelXM();
    double baseY = (spec.northM() - reach.request().baseYM()) / pixels.pixelYM();
    int w = pixels.width;
    for (int y = 0; y < pixels.height; y++) {
      for (int x = 0; x < w; x++) {
        int i = y * w + x;
        boolean outer = x + 1 < w && edge(i, i + 1);
        outer |= y + 1 < pixels.height && edge(i, i + w);
        if (!outer) {
          continue;
        }
        int rank = rank(i);
        boolean roomForAName =
            x > w / 12 && x < w - w / 12 && y > pixels.height / 12 && y < pixels.height * 11 / 12;
        if (rank >= 1 && rank <= bands && roomForAName) {
          // Label neighbouring bands in different directions so that the labels do not overlap.
          double azimuth = Math.toRadians(35 + 40.0 * rank);
          double dx = x - baseX;
          double dy = y - baseY;
          double forward = dx * Math.sin(azimuth) - dy * Math.cos(azimuth);
          double side = Math.abs(dx * Math.cos(azimuth) + dy * Math.sin(azimuth));
          double score = forward - side;
          if (at[rank] == 0 || score > best[rank]) {
            best[rank] = score;
            at[rank] = i + 1;
          }
        }
      }
    }
    for (int k = 1; k <= bands; k++) {
      if (at[k] > 0) {
        int x = (at[k] - 1) % w;
        int y = (at[k] - 1) / w;
        labels.add(
            new BandLabel(
                spec.westM() + (x + 1) * pixels.pixelXM(),
                spec.northM() - (y + 0.5) * pixels.pixelYM(),
                reach.request().bands().get(k - 1).label()));
      }
    }
  }

  /** Marks the edge between two neighbouring pixels if a band or the reach ends there. */
  private boolean edge(int a, int b) {
    int ra = rank(a);
    int rb = rank(b);
    if (ra == rb || (ra == 0 && stoppedByGround(a)) || (rb == 0 && stoppedByGround(b))) {
      return false;
    }
    edges[a] = true;
    edges[b] = true;
    return true;
  }

  // True if a barrier ends the reach here. An edge around every barrier would hide the bands; the
  // relief and the class map show barriers.
  private boolean stoppedByGround(int pixel) {
    int code = end[pixel];
    return code == 0 || code == ReachEnd.NO_GO.code() || code == ReachEnd.CUT_OFF.code();
  }
}
