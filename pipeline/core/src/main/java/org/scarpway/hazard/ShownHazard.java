package org.scarpway.hazard;

import java.util.List;
import java.util.function.Supplier;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * The hazard of the cells that a report shows: all of them, or every so manieth of ground larger
 * than memory.
 *
 * @param hazard01 hazard from 0 (none) to 1 (certain)
 * @param causes one bit per {@link Hazard.Cause}
 * @param outline supplies {@link #keepOut}, computed on first request
 * @param notes notes for the reviewer, one line each
 */
public record ShownHazard(
    FloatGrid hazard01, ByteGrid causes, Supplier<Geometry> outline, List<String> notes) {
  /** Checks that both layers have the same cells, and copies the notes. */
  public ShownHazard {
    hazard01.spec().requireCellsOf(causes.spec());
    notes = List.copyOf(notes);
  }

  /** Keep-out areas including their margin, in the CRS of the grid; may be empty. */
  public Geometry keepOut() {
    return outline.get();
  }
}
