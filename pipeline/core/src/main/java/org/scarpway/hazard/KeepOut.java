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

/** Outline of keep-out ground: the polygons buffered by the margin, as shown in products. */
public final class KeepOut {
  /**
   * Maximum number of edge pairs with touching margins; buffering with 65 000 took 3 s and hundreds
   * of MB.
   */
  private static final long MOST_PAIRS = 40_000;

  /** Additional pairs allowed per edge; outlines coarser than the margin have fewer. */
  private static final long PAIRS_PER_EDGE = 4;

  /** Maximum number of cells of a grid that is traced in one piece. */
  private static final long MOST_TRACED_CELLS = 100_000_000;

  private final List<Geometry> areas;
  private final double marginM;
  private final KeepOutCells cells;
  private final GridSpec spec;
  private final boolean tangled;
  private Geometry outline;

  /**
   * @param areas keep-out geometries in the CRS of the grid
   * @param marginM buffer around them (m)
   * @param cells cells of these areas with the same margin
   * @throws UserError if the outline cannot be computed in acceptable time
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
   * Returns the union of all areas, buffered by the margin. If the outlines are much finer than the
   * margin, buffering may take time quadratic in the number of vertices; the outline of the cells
   * is then used instead. Computed on first request.
   */
  public synchronized Geometry outline() {
    if (outline == null) {
      outline = tangled ? traced() : area(areas, marginM);
    }
    return outline;
  }

  /**
   * Returns the union of all areas, buffered by the margin. Self-intersecting rings are repaired
   * first; a hole that the margin fills disappears. Points and lines are included if there is a
   * margin.
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
    // Every pair is found from both sides, and every edge finds itself.
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
