package org.scarpway.reach.corridor;

import org.scarpway.reach.front.CostField;

/** Costs from the start and to the end of a leg, where both together are not too much. */
record Detours(CostField from, CostField to, int start, int end) {}
