package org.scarpway.reach.corridor;

import org.scarpway.reach.front.CostField;

/**
 * Accumulated costs from the start and to the end of a leg, computed where their sum is within the
 * corridor limit.
 */
record Detours(CostField from, CostField to, int start, int end) {}
