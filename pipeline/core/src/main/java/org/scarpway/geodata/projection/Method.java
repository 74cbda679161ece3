package org.scarpway.geodata.projection;

/**
 * The supported map projections, with their names in OGC WKT 1 and in PROJ strings. Equivalent
 * forms share one constant: a polar map true to scale at a latitude is {@link #STEREOGRAPHIC} about
 * the pole with the matching scale, Mercator with a standard parallel is {@link #MERCATOR} with the
 * matching scale.
 */
public enum Method {
  STEREOGRAPHIC("Stereographic", "stere"),
  OBLIQUE_STEREOGRAPHIC("Oblique_Stereographic", "sterea"),
  TRANSVERSE_MERCATOR("Transverse_Mercator", "tmerc"),
  EQUIRECTANGULAR("Equirectangular", "eqc"),
  MERCATOR("Mercator_1SP", "merc"),
  PSEUDO_MERCATOR("Mercator_1SP", "merc"),
  LAMBERT_CONFORMAL_1SP("Lambert_Conformal_Conic_1SP", "lcc"),
  LAMBERT_CONFORMAL_2SP("Lambert_Conformal_Conic_2SP", "lcc"),
  ALBERS("Albers_Conic_Equal_Area", "aea"),
  LAMBERT_AZIMUTHAL("Lambert_Azimuthal_Equal_Area", "laea"),
  AZIMUTHAL_EQUIDISTANT("Azimuthal_Equidistant", "aeqd"),
  SINUSOIDAL("Sinusoidal", "sinu");

  private final String wktName;
  private final String projName;

  Method(String wktName, String projName) {
    this.wktName = wktName;
    this.projName = projName;
  }

  public String wktName() {
    return wktName;
  }

  public String projName() {
    return projName;
  }
}
