package org.scarpway.reach.front;

import java.util.BitSet;

/** Limits a front to a set of cells: only these are expanded. */
final class DomainMask extends AllowanceByCell {
  private final BitSet inside;

  DomainMask(Tiling tiling, BitSet inside) {
    super(tiling);
    this.inside = inside;
  }

  @Override
  double most(int cell) {
    return inside.get(cell) ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
  }
}
