/**
 * Terrain derivatives: slope, aspect, roughness, step, ruggedness and convexity from heights, with
 * their errors. Optional results that a job may request are in {@link Derivative}, {@link Scaling}
 * and {@link SlopeMonteCarlo}. Does not depend on vehicles or files.
 *
 * <p>Every published method is one class with a static {@code fill} that operates on plain arrays:
 * heights (m, row-major, row 0 north, NaN void) of {@code rows} x {@code cols} cells, of which rows
 * {@code fromRow} (inclusive) to {@code toRow} (exclusive) are computed into arrays of the same
 * shape. The other rows are halo rows that are only read, so the same call serves a whole grid, a
 * band of it on one core, or a strip of a raster larger than memory, with bit-identical results.
 * East is towards higher columns, north towards lower rows; cells may be longer one way than the
 * other.
 *
 * <p>Void rule: where the window of a derivative extends beyond the array or contains a void, the
 * derivative is NaN. Voids are never filled.
 */
package org.scarpway.terrain;
