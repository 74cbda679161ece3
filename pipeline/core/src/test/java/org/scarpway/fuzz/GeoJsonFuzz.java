package org.scarpway.fuzz;

import org.scarpway.geodata.vector.PolygonReader;

/** Polygons of any bytes. */
public final class GeoJsonFuzz {
  private GeoJsonFuzz() {}

  public static void fuzzerTestOneInput(byte[] content) {
    Target.read("areas.geojson", content, PolygonReader::read);
  }
}
