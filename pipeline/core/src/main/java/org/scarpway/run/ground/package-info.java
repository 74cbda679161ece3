/**
 * The ground of an open job: elevation model, terrain, hazard and mobility as later stages ask for
 * them, in memory or strip by strip.
 */
package org.scarpway.run.ground;
