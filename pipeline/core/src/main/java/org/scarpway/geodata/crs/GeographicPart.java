package org.scarpway.geodata.crs;

import org.scarpway.geodata.projection.Ellipsoid;

/** Datum, ellipsoid and angular unit of a geographic CRS. */
record GeographicPart(
    String name,
    String datum,
    String spheroid,
    Ellipsoid body,
    String meridian,
    double meridianDeg,
    double degreesPerUnit,
    boolean planetocentric,
    String authority) {}
