package org.scarpway.terrain;

import org.scarpway.grid.FloatGrid;

/**
 * What the ground looks like, one value per cell, NaN where the window of a derivative touches a
 * void or the edge. Gradients are rise over run towards east and north; aspect is the downslope
 * azimuth clockwise from north, NaN on level ground.
 */
public record Terrain(
    FloatGrid heightM,
    FloatGrid slopeDeg,
    FloatGrid aspectDeg,
    FloatGrid gradEast,
    FloatGrid gradNorth,
    FloatGrid roughnessM,
    FloatGrid stepM,
    FloatGrid ruggednessM,
    FloatGrid convexityM) {}
