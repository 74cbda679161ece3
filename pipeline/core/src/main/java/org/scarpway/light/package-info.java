/**
 * Light and sight: where sun and Earth stand over a place and at which time, the horizon of the
 * ground around every cell, and what follows from both: light, shadow and contact.
 *
 * <p>Directions come from published series without data files, or from a table that the mission
 * brings. Horizons come from one linear sweep for each azimuth over the hull of the ground passed,
 * on the sphere of the body.
 */
package org.scarpway.light;
