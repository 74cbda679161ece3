package org.scarpway.geodata.crs;

import org.scarpway.stage.UserError;

/** The error for a coordinate reference system that is not supported. */
final class UnsupportedCrs {
  private UnsupportedCrs() {}

  static UserError of(String crsName, String why) {
    return new UserError(
        "coordinate reference system '"
            + crsName
            + "': "
            + why
            + " is not supported; expected longitude-latitude, transverse Mercator, stereographic,"
            + " equirectangular, Mercator, Lambert conformal conic, Albers, Lambert azimuthal,"
            + " azimuthal equidistant or sinusoidal; reproject the file to one of these");
  }
}
