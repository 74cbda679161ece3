/**
 * What the ground looks like: slope, aspect, roughness, step, ruggedness and convexity from
 * heights. Arrays in, arrays out; knows no vehicle.
 */
package org.scarpway.terrain;
