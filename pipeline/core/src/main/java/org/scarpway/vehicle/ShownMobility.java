package org.scarpway.vehicle;

import java.util.List;
import java.util.Optional;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * The mobility of one vehicle on the cells that a report shows: all of them, or every so manieth of
 * ground larger than memory. Layers as in {@link Mobility}.
 *
 * @param vehicle the vehicle that the layers hold for
 * @param cls class of each cell
 * @param limit code of the binding {@link Limit}
 * @param headingsPct share of headings allowed (%)
 * @param speedMs mean speed of advance (m/s)
 * @param noGo01 probability that a limit is exceeded, empty if the height error is unknown
 * @param unresolved limits that the cells do not resolve, null if they resolve all
 * @param slow amount of slow ground by cause, over all ground
 * @param cells number of cells by class and limit, over all ground
 * @param notes method and its limitations, for the reader of the products
 */
public record ShownMobility(
    Vehicle vehicle,
    ByteGrid cls,
    ByteGrid limit,
    FloatGrid headingsPct,
    FloatGrid speedMs,
    Optional<FloatGrid> noGo01,
    Unresolved unresolved,
    SlowGround slow,
    ClassCells cells,
    List<String> notes) {
  /** Checks that every layer has the same cells, and copies the notes. */
  public ShownMobility {
    cls.spec().requireCellsOf(limit.spec(), headingsPct.spec(), speedMs.spec());
    noGo01.ifPresent(p -> cls.spec().requireCellsOf(p.spec()));
    notes = List.copyOf(notes);
  }
}
