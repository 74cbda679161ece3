package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

class SoilMapTest {
  private static final GridSpec SPEC = Grounds.square(4, 5);
  private static final Soil WEAK =
      new Soil("weak", new Soil.Bekker(1, 700, 410_000), new Soil.Shear(20, 20, 0.0178), null);

  private static Mobility run(Terrain t, Vehicle v, SoilMap soils) {
    try (Workers workers = new Workers(1)) {
      return MobilityStage.compute(
          t, Grounds.noHazard(SPEC), v, soils, Body.MOON, workers, Progress.NONE);
    }
  }

  @Test
  void eachCellIsJudgedOnItsOwnSoil() {
    Terrain slope = Grounds.plane(SPEC, 0, SlopeGeometry.tan(12));
    ByteGrid soilAt = ByteGrid.empty(SPEC);
    soilAt.values()[5] = 1;
    SoilMap soils = new SoilMap(List.of(WEAK), soilAt);
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);
    Mobility mixed = run(slope, v, soils);
    Mobility own = run(slope, v, null);
    Mobility weak = run(slope, v.withSoil(WEAK), null);
    for (int cell = 0; cell < SPEC.cells(); cell++) {
      Mobility expected = cell == 5 ? weak : own;
      assertEquals(expected.cls().values()[cell], mixed.cls().values()[cell]);
      assertEquals(expected.limit().values()[cell], mixed.limit().values()[cell]);
      for (int k = 0; k < 32; k++) {
        assertEquals(expected.field().energyJPerM(cell, k), mixed.field().energyJPerM(cell, k), 0);
        assertEquals(expected.field().timeSPerM(cell, k), mixed.field().timeSPerM(cell, k), 0);
      }
    }
    assertTrue(weak.field().allowed(5) != own.field().allowed(5), "weak soil must matter here");
    CellMobility why =
        MobilityExplain.at(
            slope, Grounds.noHazard(SPEC), v, soils, Body.MOON, UnresolvedRule.SAY, 5);
    assertEquals("weak", why.soil());
    assertEquals(mixed.cls().values()[5], why.cls());
  }

  /** Any of the soils may lie where nobody knows: no figure is better than on any of them. */
  @Test
  void unknownSoilHasNoVerdictOrTheWorstOfAll() {
    Soil soft =
        new Soil("soft", new Soil.Bekker(1, 100, 90_000), new Soil.Shear(900, 40, 0.01), null);
    ByteGrid unknown = ByteGrid.empty(SPEC);
    java.util.Arrays.fill(unknown.values(), SoilMap.unknownIndex(2));
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);
    for (double deg = 0; deg < 16; deg += 1.5) {
      Terrain slope = Grounds.plane(SPEC, 0.05, SlopeGeometry.tan(deg));
      Mobility none = run(slope, v, new SoilMap(List.of(WEAK, soft), unknown));
      assertEquals(0, none.cls().values()[5]);
      assertEquals(Limit.SOIL_DATA.code(), none.limit().values()[5]);
      assertEquals(0, none.field().allowed(5));
      SoilMap any = new SoilMap(List.of(WEAK, soft), unknown, SoilMap.Unknown.WORST);
      Mobility worst = run(slope, v, any);
      int open = -1;
      for (Soil soil : new Soil[] {null, WEAK, soft}) {
        Mobility one = run(slope, soil == null ? v : v.withSoil(soil), null);
        open &= one.field().allowed(5);
        assertTrue(worst.cls().values()[5] >= one.cls().values()[5], deg + " class");
        assertTrue(worst.margin01().values()[5] <= one.margin01().values()[5], deg + " margin");
        for (int k = 0; k < 32; k++) {
          double slack = 1 - 1e-6;
          assertTrue(
              worst.field().timeSPerM(5, k) >= slack * one.field().timeSPerM(5, k), deg + " time");
          assertTrue(
              worst.field().energyJPerM(5, k) >= slack * one.field().energyJPerM(5, k),
              deg + " energy");
        }
      }
      assertEquals(0, worst.field().allowed(5) & ~open, "no heading that a soil closes");
      CellMobility why =
          MobilityExplain.at(
              slope, Grounds.noHazard(SPEC), v, any, Body.MOON, UnresolvedRule.SAY, 5);
      assertEquals(worst.cls().values()[5], why.cls());
      assertTrue(why.soil().startsWith("not known, worst of the job's soils"), why.soil());
      // Where soils meet in a cell all of them count, whatever stands for missing data.
      ByteGrid several = ByteGrid.empty(SPEC);
      java.util.Arrays.fill(several.values(), SoilMap.severalIndex(2));
      SoilMap meet = new SoilMap(List.of(WEAK, soft), several);
      Mobility met = run(slope, v, meet);
      assertEquals(worst.cls().values()[5], met.cls().values()[5]);
      assertEquals(worst.margin01().values()[5], met.margin01().values()[5]);
      assertEquals(worst.field().allowed(5), met.field().allowed(5));
      for (int k = 0; k < 32; k++) {
        assertEquals(worst.field().timeSPerM(5, k), met.field().timeSPerM(5, k));
        assertEquals(worst.field().energyJPerM(5, k), met.field().energyJPerM(5, k));
      }
      CellMobility whyMet =
          MobilityExplain.at(
              slope, Grounds.noHazard(SPEC), v, meet, Body.MOON, UnresolvedRule.SAY, 5);
      assertTrue(whyMet.soil().startsWith("several, worst of the job's soils"), whyMet.soil());
      assertTrue(met.notes().stream().anyMatch(n -> n.startsWith("Soils meet")), "a note");
    }
  }

  @Test
  void vehicleWithoutMassKeepsItsOwnAndSaysSo() {
    ByteGrid soilAt = ByteGrid.empty(SPEC);
    java.util.Arrays.fill(soilAt.values(), (byte) 1);
    Mobility m =
        run(
            Grounds.plane(SPEC, 0, 0),
            Vehicles.plain(20.0, 20.0, 15.0),
            new SoilMap(List.of(WEAK), soilAt));
    assertEquals(Mobility.GO, m.cls().values()[5]);
    assertTrue(m.notes().stream().anyMatch(n -> n.contains("not applied")));
  }
}
