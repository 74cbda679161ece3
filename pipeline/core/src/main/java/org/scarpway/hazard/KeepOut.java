package org.scarpway.hazard;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.geom.util.LinearComponentExtracter;
import org.locationtech.jts.index.hprtree.HPRtree;
import org.locationtech.jts.operation.union.UnaryUnionOp;
import org.scarpway.geodata.vector.CellPolygons;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** The outline of keep-out ground: polygons with a margin around them, as products show them. */
public final class KeepOut {
  /** Pairs of edges whose margins touch; growing 65 000 took 3 s and hundreds of MB. */
  private static final long MOST_PAIRS = 40_000;

  /** Pairs for each edge beyond that; outlines coarser than the margin have fewer. */
  private static final long PAIRS_PER_EDGE = 4;

  /** Larger grids have their cells not traced at once. */
  private static final long MOST_TRACED_CELLS = 100_000_000;

  private final List<Geometry> areas;
  private final double marginM;
  private final KeepOutCells cells;
  private final GridSpec spec;
  private final boolean tangled;
  private Geometry outline;

  /**
   * @param cells of these areas with that margin
   * @throws UserError where there can be no outline in good time
   */
  KeepOut(List<Geometry> areas, double marginM, KeepOutCells cells, GridSpec spec) {
    this.areas = areas;
    this.marginM = marginM;
    this.cells = cells;
    this.spec = spec;
    this.tangled = tangled(areas, marginM);
    if (tangled && spec.cells() > MOST_TRACED_CELLS) {
      throw UserError.of(
          KeepOutCells.KEY,
          String.format(
              Locale.ROOT, "outlines are much finer than the margin of %.4g m about them", marginM),
          "vertices about as far apart as the margin, on a grid of " + spec.cells() + " cells",
          "simplify the polygons, or work on "
              + MOST_TRACED_CELLS
              + " cells or fewer (dem.window, dem.cell_size_m)");
    }
  }

  /**
   * The union of all areas, grown by the margin, as long as that can be had in good time; of
   * outlines much finer than the margin, which may take the square of their vertices, the outline
   * of the cells. Made when first asked for.
   */
  public synchronized Geometry outline() {
    if (outline == null) {
      outline = tangled ? traced() : area(areas, marginM);
    }
    return outline;
  }

  /**
   * The union of all areas, grown by the margin. Self-crossing rings are repaired first; a hole
   * that the margin fills is gone. Points and lines count where there is a margin.
   */
  static Geometry area(List<Geometry> areas, double marginM) {
    KeepOutCells.requireMargin(marginM);
    List<Geometry> sound = areas.stream().map(g -> g.isValid() ? g : GeometryFixer.fix(g)).toList();
    Geometry union =
        sound.size() == 1 ? sound.get(0) : UnaryUnionOp.union(sound, new GeometryFactory());
    Geometry grown = marginM > 0 ? union.buffer(marginM) : union;
    return grown.isEmpty() ? new GeometryFactory().createPolygon() : grown;
  }

  private Geometry traced() {
    byte[] mask = new byte[spec.cells()];
    cells.mark(0, spec.rows(), mask, 1);
    return CellPolygons.trace(spec, cell -> mask[cell] != 0);
  }

  private static boolean tangled(List<Geometry> areas, double marginM) {
    List<Envelope> boxes = new ArrayList<>();
    for (Geometry area : areas) {
      for (Object line : LinearComponentExtracter.getLines(area)) {
        Coordinate[] c = ((Geometry) line).getCoordinates();
        for (int k = 1; k < c.length; k++) {
          Envelope box = new Envelope(c[k - 1], c[k]);
          box.expandBy(marginM);
          boxes.add(box);
        }
      }
    }
    // Every pair is come upon from both sides, and every edge upon itself.
    long most = boxes.size() + 2 * (MOST_PAIRS + PAIRS_PER_EDGE * boxes.size());
    HPRtree tree = new HPRtree();
    boxes.forEach(box -> tree.insert(box, box));
    long[] found = new long[1];
    for (Envelope box : boxes) {
      tree.query(box, item -> found[0]++);
      if (found[0] > most) {
        return true;
      }
    }
    return false;
  }
}
