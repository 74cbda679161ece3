package org.scarpway.vehicle;

/**
 * Compaction resistance (N) of a rigid wheel that forms its own rut: Rc = b (kc/b + kphi) z^(n+1) /
 * (n+1) (Bekker 1969; Wong 2008, ch. 2).
 */
public final class CompactionResistance {
  private CompactionResistance() {}

  public static double newtons(Soil.Bekker soil, double widthM, double sinkageM) {
    return widthM
        * (soil.kc() / widthM + soil.kphi())
        * Math.pow(sinkageM, soil.n() + 1)
        / (soil.n() + 1);
  }
}
