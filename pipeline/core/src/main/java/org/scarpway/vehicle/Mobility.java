package org.scarpway.vehicle;

import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * One vehicle on one ground.
 *
 * @param cls 1 go, 2 slow, 3 no-go, 0 no data
 * @param limit code of the {@link Limit} that binds first, 0 where none does
 * @param headingsPct share of headings allowed, 0 to 100
 * @param speedMs mean over the allowed headings, NaN where there is none
 * @param energyJm mean over the allowed headings, NaN where there is none
 * @param margin01 how much of the binding limit is left: 0 at the limit, 1 when unused; negative on
 *     no-go ground
 * @param field the heading-resolved truth
 */
public record Mobility(
    Vehicle vehicle,
    ByteGrid cls,
    ByteGrid limit,
    FloatGrid headingsPct,
    FloatGrid speedMs,
    FloatGrid energyJm,
    FloatGrid margin01,
    MoveField field) {
  public static final byte GO = 1;
  public static final byte SLOW = 2;
  public static final byte NO_GO = 3;
}
