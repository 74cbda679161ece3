/**
 * Trafficability for a vehicle or a walker: the headings that each cell allows, the limit that
 * binds, and the speed and energy of crossing it.
 *
 * <p>Reads terrain and hazard grids and the numbers of a vehicle, soil or walker file; produces
 * {@link org.scarpway.vehicle.Mobility} and {@link org.scarpway.vehicle.TraversalCost}. SI units;
 * angles in degrees in records, rise over run inside. Every limit is a bound on grade, on cross
 * grade, or on a value of the cell, so the headings that a slope leaves open are known in closed
 * form; windows between the 32 headings are used by tacking. Does not depend on routes, budgets or
 * files.
 *
 * <p>Sources: Bekker 1969, Wong 2008 and Janosi and Hanamoto 1961 for wheels on soil; Priddy and
 * Willoughby for cone index; Tobler 1993, Naismith 1892 and Langmuir for walking speed; Pandolf et
 * al. 1977, Santee et al. 2001 and Minetti et al. 2002 for metabolic rate. Own rules, without a
 * source: the speed between {@code slow_from} and the limit, the largest slip that counts as
 * driving, the scaling of walkers to their mean rate and to other gravity, the largest detour
 * factor of tacks.
 */
package org.scarpway.vehicle;
