package org.scarpway.report;

/** Tells a place of the map (m) in the coordinates in which users write places, with their unit. */
@FunctionalInterface
public interface PlaceText {
  /** Returns the coordinates as text. */
  String of(double xM, double yM);
}
