package org.scarpway.sample;

import java.util.List;

/** Invented places on the Orrel bench, in metres east and north of its south-west corner. */
final class DemoPlaces {
  record Base(String name, double uM, double vM) {}

  record Stop(
      String name, double uM, double vM, double weight, int stayMin, int walkCount, String why) {}

  static final Crater QUERN = new Crater(3350, 1750, 620, 0.85);
  static final Crater ADDLE = new Crater(3150, 4850, 440, 0.8);
  static final Crater BROME = new Crater(700, 2350, 360, 0.75);
  static final Crater SALLOW = new Crater(5350, 2550, 300, 0.6);
  static final List<Crater> NAMED = List.of(QUERN, ADDLE, BROME, SALLOW);

  static final Base HEARTH = new Base("hearth", 1150, 950);
  static final Base LANTERN = new Base("lantern", 4850, 4750);
  static final List<Base> BASES = List.of(HEARTH, LANTERN);

  static final List<Stop> STOPS =
      List.of(
          new Stop("quern-rim", 3000, 1560, 3, 60, 2, "rim rocks from 120 m below"),
          new Stop("quern-floor", 3350, 1750, 2, 90, 1, "melt sheet; walls too steep to drive"),
          new Stop("crumbs", 2050, 2450, 2, 40, 2, "edge of the boulder field"),
          new Stop("brome-rim", 905, 2330, 1, 30, 1, "worn crater"),
          new Stop("stair-foot", 4450, 2800, 1, 20, 1, "layers at the foot of the scarp"),
          new Stop("addle-rim", 3420, 4980, 3, 60, 2, "highest rim of the upland"),
          new Stop("north-flat", 1250, 5200, 2, 45, 1, "old upland surface"),
          new Stop("far-corner", 5650, 5700, 1, 30, 1, "seismic station site"));

  /** East coordinate (m) of the densest part of the Crumbs boulder field. */
  static final double CRUMBS_U_M = 2250;

  static final double CRUMBS_V_M = 2750;

  /** Corners of the keep-out ground around an old landing stage, counter-clockwise, closed. */
  static final double[][] KEEP_OUT = {
    {2060, 1180}, {2300, 1120}, {2440, 1240}, {2420, 1450}, {2230, 1540}, {2090, 1430}, {2060, 1180}
  };

  private DemoPlaces() {}
}
