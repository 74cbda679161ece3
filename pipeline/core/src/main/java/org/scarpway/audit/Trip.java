package org.scarpway.audit;

import org.scarpway.stage.Floats;
import org.scarpway.vehicle.MoveField;

/**
 * A trip that is said to break no rule.
 *
 * @param name of the target, or of the sampled cell
 * @param changeS standing after the stay and before the way home (s)
 * @param home null where nobody has to come home
 * @param homeField the mover on the way home, which may be loaded
 */
public record Trip(
    String name,
    Way out,
    double stayS,
    double changeS,
    Way home,
    MoveField outField,
    MoveField homeField,
    Floats heightM) {}
