package org.scarpway.geodata.vector;

import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.impl.CoordinateArraySequence;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Ints;

/**
 * A closed ring through corners of cells, which are stored as rows and columns: a coordinate object
 * for each corner would take five times as much memory. Read-only; copies have coordinates.
 */
final class CornerSequence implements CoordinateSequence {
  private final GridSpec spec;
  private final Ints corners;
  private final int first;
  private final int count;

  /**
   * @param corners row and column of every corner
   * @param first of the ring's corners
   * @param count of the ring's corners, the first one counted once
   */
  CornerSequence(GridSpec spec, Ints corners, int first, int count) {
    this.spec = spec;
    this.corners = corners;
    this.first = first;
    this.count = count;
  }

  private int at(int i) {
    return 2 * (first + (i == count ? 0 : i));
  }

  @Override
  public int size() {
    return count + 1;
  }

  @Override
  public int getDimension() {
    return 2;
  }

  @Override
  public double getX(int i) {
    return spec.westM() + corners.get(at(i) + 1) * spec.cellXM();
  }

  @Override
  public double getY(int i) {
    return spec.northM() - corners.get(at(i)) * spec.cellYM();
  }

  @Override
  public double getOrdinate(int i, int ordinate) {
    return ordinate == X ? getX(i) : ordinate == Y ? getY(i) : Double.NaN;
  }

  @Override
  public Coordinate getCoordinate(int i) {
    return new Coordinate(getX(i), getY(i));
  }

  @Override
  public Coordinate getCoordinateCopy(int i) {
    return getCoordinate(i);
  }

  @Override
  public void getCoordinate(int i, Coordinate into) {
    into.x = getX(i);
    into.y = getY(i);
  }

  @Override
  public void setOrdinate(int i, int ordinate, double value) {
    throw new UnsupportedOperationException("corners of cells do not move");
  }

  @Override
  public Coordinate[] toCoordinateArray() {
    Coordinate[] all = new Coordinate[size()];
    for (int i = 0; i < all.length; i++) {
      all[i] = getCoordinate(i);
    }
    return all;
  }

  @Override
  public Envelope expandEnvelope(Envelope box) {
    for (int i = 0; i < count; i++) {
      box.expandToInclude(getX(i), getY(i));
    }
    return box;
  }

  @Override
  public CoordinateSequence copy() {
    return new CoordinateArraySequence(toCoordinateArray(), 2);
  }

  @Override
  @Deprecated
  public Object clone() {
    return copy();
  }
}
