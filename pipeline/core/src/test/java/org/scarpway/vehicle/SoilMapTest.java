package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.RockBody;
import org.scarpway.hazard.RockCount;
import org.scarpway.hazard.RockModel;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

class SoilMapTest {
  private static final GridSpec SPEC = Grounds.square(4, 5);
  private static final Soil WEAK =
      VehicleParts.soil(
          "weak", new Soil.Bekker(1, 700, 410_000), new Soil.Shear(20, 20, 0.0178), null);

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

  /** Whatever the vehicle's own soil, nothing that follows from a soil is told of such ground. */
  @Test
  void nothingIsToldOfASoilThatNobodyKnows() {
    ByteGrid unknown = ByteGrid.empty(SPEC);
    java.util.Arrays.fill(unknown.values(), SoilMap.unknownIndex(1));
    SoilMap soils = new SoilMap(List.of(WEAK), unknown);
    Random random = new Random(23);
    Terrain ground = Grounds.plane(SPEC, 0.05, SlopeGeometry.tan(6));
    CellMobility first = null;
    for (int n = 0; n < 40; n++) {
      Soil own =
          VehicleParts.soil(
              "own",
              new Soil.Bekker(1, 100, 60_000 + 2e6 * random.nextDouble()),
              new Soil.Shear(1000 * random.nextDouble(), 10 + 35 * random.nextDouble(), 0.02),
              null);
      Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, own);
      CellMobility told =
          MobilityExplain.at(
              ground, Grounds.noHazard(SPEC), v, soils, Body.MOON, UnresolvedRule.SAY, 5);
      first = first == null ? told : first;
      assertEquals(first, told);
      assertEquals("not known", told.soil());
      assertTrue(Double.isNaN(told.sinkageM()) && Double.isNaN(told.slip()));
      assertTrue(Double.isNaN(told.pullN()));
    }
    assertTrue(first.checks().stream().anyMatch(c -> Double.isNaN(c.allowed())), "step");
  }

  /** Any of the soils may lie where nobody knows: no figure is better than on any of them. */
  @Test
  void unknownSoilHasNoVerdictOrTheWorstOfAll() {
    Soil soft =
        VehicleParts.soil(
            "soft", new Soil.Bekker(1, 100, 90_000), new Soil.Shear(900, 40, 0.01), null);
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

  /** Soil over everything is no better given by place than in the vehicle's file. */
  @Test
  void amongRocksASoilByPlaceIsNoBetterThanTheVehiclesOwn() {
    Random random = new Random(17);
    ByteGrid everywhere = ByteGrid.empty(SPEC);
    java.util.Arrays.fill(everywhere.values(), (byte) 1);
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);
    int closed = 0;
    for (int n = 0; n < 60; n++) {
      double stiff = 40_000 * Math.pow(25, random.nextDouble());
      Soil soil =
          VehicleParts.soil(
              "s", new Soil.Bekker(1, 150, stiff), new Soil.Shear(170, 38, 0.0178), null);
      Vehicle own = v.withSoil(soil);
      Terrain slope = Grounds.plane(SPEC, 0, SlopeGeometry.tan(5 * random.nextDouble()));
      double coverage = 0.01 + 0.15 * random.nextDouble();
      double ownM = new DriveModel(own, Body.MOON.gravityMs2()).sinkageM(0);
      double firmM = new DriveModel(v, Body.MOON.gravityMs2()).sinkageM(0);
      // What rocks are judged with where the soil lies by place.
      double judgedM = SoilMap.leavesHalf(v, ownM) ? Math.max(ownM, firmM) : firmM;
      Mobility inFile = amongRocks(slope, own, null, coverage, Math.max(ownM, 0));
      SoilMap map = new SoilMap(List.of(soil), everywhere);
      Mobility byPlace = amongRocks(slope, v, map, coverage, judgedM);
      String at = "trial " + n + ", sinks " + ownM;
      assertTrue(byPlace.cls().values()[5] >= inFile.cls().values()[5], at);
      assertEquals(0, byPlace.field().allowed(5) & ~inFile.field().allowed(5), at);
      for (int k = 0; k < 32; k++) {
        double slower = byPlace.field().timeSPerM(5, k);
        assertTrue(!(slower < inFile.field().timeSPerM(5, k) * (1 - 1e-6)), at);
      }
      if (!SoilMap.leavesHalf(v, ownM) && ownM > firmM) {
        closed++;
        assertEquals(Limit.ROCKS.code(), byPlace.limit().values()[5], at);
        String notes = String.join(" ", byPlace.notes());
        assertTrue(notes.contains("no-go for rocks wherever there are any"), notes);
      }
    }
    assertTrue(closed > 5 && closed < 55, "closed for rocks: " + closed);
  }

  private static Mobility amongRocks(
      Terrain t, Vehicle v, SoilMap soils, double coverage, double sinkageM) {
    double bellyM = Math.max(0.01, v.body().clearanceM() - sinkageM);
    double wheelM = Math.max(0.01, v.limits().stepM() - sinkageM);
    RockBody body = new RockBody(3.2, bellyM, wheelM, 0.35, 2);
    RockModel model = RockModel.of(RockCount.ALL, coverage);
    double density = model.density(body);
    double hitsPerM = model.hitsPerM(body);
    boolean shut = density >= RockModel.CLOSED_DENSITY || hitsPerM * v.body().lengthM() > 1;
    double detour = shut ? Double.POSITIVE_INFINITY : RockModel.detourFactor(density);
    Hazard none = Grounds.noHazard(SPEC);
    Hazard rocks =
        none.with(
            new Hazard.Boulders(
                Grounds.filled(SPEC, 1000 * hitsPerM),
                Grounds.filled(SPEC, density / (Math.PI * hitsPerM)),
                10 * v.body().lengthM(),
                v.body().lengthM()),
            Grounds.filled(SPEC, detour));
    try (Workers workers = new Workers(1)) {
      return MobilityStage.compute(t, rocks, v, soils, Body.MOON, workers, Progress.NONE);
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
