/**
 * What the ground looks like: slope, aspect, roughness, step, ruggedness and convexity from
 * heights, and how sure they are; what a job asks for beyond these in {@link Derivative}, {@link
 * Scaling} and {@link SlopeMonteCarlo}. Knows no vehicle and no file.
 *
 * <p>Every published method is one class with a static {@code fill} that works on plain arrays:
 * heights (m, row-major, row 0 north, NaN void) of {@code rows} x {@code cols} cells, of which rows
 * {@code fromRow} (inclusive) to {@code toRow} (exclusive) are computed into arrays of the same
 * shape. The other rows are a halo that is only read, so the same call serves a whole grid, a band
 * of it on one core, or a strip of a raster larger than memory, and gives the same bytes. East is
 * towards higher columns, north towards lower rows; cells may be longer one way than the other.
 *
 * <p>Void rule: where the window of a derivative reaches beyond the array or holds a void, the
 * derivative is NaN. Nothing is invented.
 */
package org.scarpway.terrain;
