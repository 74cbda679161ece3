package org.scarpway.vehicle;

import java.util.List;
import java.util.Optional;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * Trafficability of the terrain for one vehicle.
 *
 * @param vehicle the vehicle that the layers hold for
 * @param cls 1 go: every heading within rated limits and no {@code slow_from} threshold exceeded; 2
 *     slow: driveable, but on some headings only or beyond {@code slow_from}; 3 no-go: no heading
 *     at all; 0 no data
 * @param limit code of the binding {@link Limit}, 0 if none binds. Driveable on every heading: the
 *     limit with the smallest margin on the worst heading. On some headings only: the limit that
 *     closes most of them. No-go: the limit exceeded least on the best heading, or a limit of the
 *     whole cell if that is exceeded by more
 * @param headingsPct share of headings allowed (%), 0 to 100; continuous where the gradient alone
 *     decides
 * @param speedMs mean speed of advance along the surface over the allowed headings (m/s), NaN where
 *     none is allowed
 * @param energyJm mean energy over the allowed headings per surface metre of advance, NaN where
 *     none is allowed
 * @param margin01 unused share of the binding limit: 1 when unused, 0 as soon as it closes some
 *     headings, negative on no-go ground (-1 in keep-out areas and impassable rocks)
 * @param noGo01 probability that a limit is exceeded on the best of the 32 headings, given the
 *     measured heights and their error; an upper bound except for belly and overhangs; 1 in
 *     keep-out areas and impassable rocks, empty if the error is unknown
 * @param field costs per cell and heading, from which the other layers summarise
 * @param unresolved limits that the cells do not resolve, null if they resolve all
 * @param slow amount of slow ground by cause, over all ground; null if not counted
 * @param notes method and its limitations, for the reader of the products
 */
public record Mobility(
    Vehicle vehicle,
    ByteGrid cls,
    ByteGrid limit,
    FloatGrid headingsPct,
    FloatGrid speedMs,
    FloatGrid energyJm,
    FloatGrid margin01,
    Optional<FloatGrid> noGo01,
    TraversalCost field,
    Unresolved unresolved,
    SlowGround slow,
    List<String> notes) {
  /** Code of ground that the vehicle crosses on every heading. */
  public static final byte GO = 1;

  /** Code of ground that is driveable on some headings only or beyond {@code slow_from}. */
  public static final byte SLOW = 2;

  /** Code of ground that the vehicle cannot cross on any heading. */
  public static final byte NO_GO = 3;

  /** Checks that every layer has the same cells, and copies the notes. */
  public Mobility {
    field
        .spec()
        .requireCellsOf(
            cls.spec(),
            limit.spec(),
            headingsPct.spec(),
            speedMs.spec(),
            energyJm.spec(),
            margin01.spec());
    noGo01.ifPresent(p -> cls.spec().requireCellsOf(p.spec()));
    notes = List.copyOf(notes);
  }

  /** Creates a result without notes, for heights used as measured. */
  public Mobility(
      Vehicle vehicle,
      ByteGrid cls,
      ByteGrid limit,
      FloatGrid headingsPct,
      FloatGrid speedMs,
      FloatGrid energyJm,
      FloatGrid margin01,
      TraversalCost field) {
    this(
        vehicle,
        cls,
        limit,
        headingsPct,
        speedMs,
        energyJm,
        margin01,
        Optional.empty(),
        field,
        null,
        null,
        List.of());
  }
}
