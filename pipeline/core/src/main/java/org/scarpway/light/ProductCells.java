package org.scarpway.light;

import org.scarpway.grid.GridSpec;

/**
 * The cells of products: blocks of cells of the ground from its north-west corner. The eye of a
 * block is in its middle cell; the last row and column may reach beyond the ground.
 *
 * @param ground the ground
 * @param block side of a product cell in cells of the ground
 * @param spec georeference of the product cells
 */
public record ProductCells(GridSpec ground, int block, GridSpec spec) {

  /** Of blocks of so many cells. */
  public static ProductCells of(GridSpec ground, int block) {
    GridSpec spec =
        new GridSpec(
            (ground.rows() + block - 1) / block,
            (ground.cols() + block - 1) / block,
            block * ground.cellXM(),
            block * ground.cellYM(),
            ground.westM(),
            ground.northM(),
            ground.crsWkt());
    return new ProductCells(ground, block, spec);
  }

  /** Row (or column) of the ground in which the eye of a product row is, of {@code n} of them. */
  int eye(int productIndex, int n) {
    return Math.min(productIndex * block + block / 2, n - 1);
  }

  /** Row of the ground in which the eye of a product cell is. */
  public int eyeRow(int cell) {
    return eye(cell / spec.cols(), ground.rows());
  }

  /** Column of the ground in which the eye of a product cell is. */
  public int eyeCol(int cell) {
    return eye(cell % spec.cols(), ground.cols());
  }
}
