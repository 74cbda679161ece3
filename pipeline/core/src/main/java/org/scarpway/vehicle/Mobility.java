package org.scarpway.vehicle;

import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * One vehicle on one ground.
 *
 * @param cls 1 go: every heading within rated limits and nothing of {@code slow_from} exceeded; 2
 *     slow: driveable, but on some headings only or beyond {@code slow_from}; 3 no-go: no heading
 *     at all; 0 no data
 * @param limit code of the {@link Limit} that binds, 0 where none does. Driveable on every heading:
 *     the limit with the smallest margin on the worst heading. On some headings only: the limit
 *     that takes most of them. No-go: the limit exceeded least on the best heading, or a limit of
 *     the whole cell where that is exceeded by more
 * @param headingsPct share of headings allowed, 0 to 100; continuous where the gradient alone
 *     decides
 * @param speedMs mean over the allowed headings of the progress along the surface, NaN where there
 *     is none
 * @param energyJm mean over the allowed headings per surface metre made good, NaN where there is
 *     none
 * @param margin01 how much of the binding limit is left: 1 when unused, 0 from where it begins to
 *     take headings away, negative on no-go ground (-1 in keep-out areas and impassable rocks)
 * @param noGo01 probability, from above but for belly and overhangs, that a limit is broken on the
 *     best of the 32 headings, given the heights as measured and their error; 1 in keep-out areas
 *     and impassable rocks, null where the error is not known
 * @param field the heading-resolved truth
 * @param unresolved what the cells do not show, null where they show every limit
 * @param slow why how much ground is slow, of all ground; null where nobody counted
 * @param notes what a reader of the products must know: method used, what it cannot see
 */
public record Mobility(
    Vehicle vehicle,
    ByteGrid cls,
    ByteGrid limit,
    FloatGrid headingsPct,
    FloatGrid speedMs,
    FloatGrid energyJm,
    FloatGrid margin01,
    FloatGrid noGo01,
    MoveField field,
    Unresolved unresolved,
    SlowGround slow,
    List<String> notes) {
  public static final byte GO = 1;
  public static final byte SLOW = 2;
  public static final byte NO_GO = 3;

  public Mobility {
    notes = List.copyOf(notes);
  }

  /** Without notes and of heights as measured. */
  public Mobility(
      Vehicle vehicle,
      ByteGrid cls,
      ByteGrid limit,
      FloatGrid headingsPct,
      FloatGrid speedMs,
      FloatGrid energyJm,
      FloatGrid margin01,
      MoveField field) {
    this(
        vehicle,
        cls,
        limit,
        headingsPct,
        speedMs,
        energyJm,
        margin01,
        null,
        field,
        null,
        null,
        List.of());
  }
}
