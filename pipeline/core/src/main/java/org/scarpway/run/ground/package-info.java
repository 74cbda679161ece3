/**
 * The ground of an open job: elevation model, terrain, hazard and mobility on demand of later
 * stages, in memory or strip by strip.
 */
package org.scarpway.run.ground;
