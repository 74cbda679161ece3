package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.scarpway.vehicle.MobilityExplainTest.find;
import static org.scarpway.vehicle.MobilityExplainTest.slope;
import static org.scarpway.vehicle.MobilityExplainTest.tells;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.vehicle.CellMobility.Check;
import org.scarpway.vehicle.CellMobility.OnHeading;

/** What is told of soils, and of what wheels and belly meet, against the files and by hand. */
class ExplainSoilAndWheelsTest {
  private static final GridSpec SPEC = Grounds.square(3, 5);
  private static final int MIDDLE = 4;
  private static final Vehicle FULL = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);

  /** One pass is asked for where the vehicle passes once, fifty always. */
  @Test
  void coneIndexOnceAndOften() {
    Vehicle once =
        Vehicles.powered(
            Vehicles.full(4200, 20, 15, 0.3, 5, VehicleParts.soil("clay", null, null, 150.0)),
            90_000);
    ConeBearing b = ConeBearing.of(once);
    CellMobility m = MobilityExplain.at(slope(0), Grounds.noHazard(SPEC), once, Body.EARTH, MIDDLE);
    boolean single = once.drive().passes() == 1;
    assertEquals(single, find(m.checks(), "one pass") != null);
    assertEquals(single, find(m.checks(), "the same, 50 passes: slow where exceeded") != null);
    Check often = find(m.checks(), "50 passes");
    assertEquals(Limit.TRACTION, often.limit());
    assertEquals(b.often(), often.got());
    assertEquals(b.rating(), often.allowed());
    if (single) {
      tells(m.checks(), "one pass", Limit.TRACTION, b.once(), b.rating());
    }
    assertEquals("clay", m.soil());
  }

  /** A soil weaker than any other: it is the worst of all, and named. */
  @Test
  void soilsByPlace() {
    Soil weak =
        VehicleParts.soil(
            "weak", new Soil.Bekker(1, 300, 150_000), new Soil.Shear(10, 18, 0.02), null);
    ByteGrid at = ByteGrid.empty(SPEC);
    Terrain t = slope(3);
    Hazard none = Grounds.noHazard(SPEC);
    String[] names = {"lunar", "weak", "not known", "several, worst of the job's soils: weak"};
    for (int soil = 0; soil < 4; soil++) {
      at.values()[MIDDLE] = (byte) soil;
      SoilMap soils = new SoilMap(List.of(weak), at);
      CellMobility m =
          MobilityExplain.at(t, none, FULL, soils, Body.MOON, UnresolvedRule.SAY, MIDDLE);
      assertEquals(names[soil], m.soil());
      SoilMap worst = new SoilMap(List.of(weak), at, SoilMap.Unknown.WORST);
      m = MobilityExplain.at(t, none, FULL, worst, Body.MOON, UnresolvedRule.SAY, MIDDLE);
      String name = soil == 2 ? "not known, worst of the job's soils: weak" : names[soil];
      assertEquals(name, m.soil());
    }
  }

  /** A stone of 2 cm under the middle of the belly, wheels on level ground about it. */
  @Test
  void whatWheelsAndBellyMeet() {
    GridSpec fine = Grounds.square(25, 0.5);
    Terrain t = Grounds.plane(fine, 0, 0);
    t.heightM().values()[12 * 25 + 12] = 0.02f;
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, null);
    for (boolean known : new boolean[] {false, true}) {
      LayerErrors errors =
          LayerErrors.of(new TerrainParams(SlopeMethod.HORN, 5, 2.6, 3.4, 0.01, null, null), fine);
      MobilityExplain.Limits limits =
          new MobilityExplain.Limits(
              v,
              Body.MOON,
              UnresolvedRule.SAY,
              known ? new HeightTrust(0.9, errors) : HeightTrust.AS_MEASURED);
      CellMobility m = MobilityExplain.at(t, Grounds.noHazard(fine), limits, null, 12 * 25 + 12);
      for (OnHeading h : m.headings()) {
        assertEquals(0.02, find(h.checks(), "belly").got(), 1e-6);
        assertEquals(0, find(h.checks(), "overhang").got());
        assertEquals(0, find(h.checks(), "wheels' plane").got(), 1e-9);
        assertEquals(known, find(h.checks(), "probability") != null);
        assertEquals(known, find(h.checks(), "belly").allowed() < 0.42 - 1e-6);
        assertNull(find(h.checks(), "break in slope"));
      }
      assertNull(find(m.checks(), "between the axles"));
    }
    Vehicle bare =
        new Vehicle(
            "bare",
            "",
            null,
            new Vehicle.Chassis(4, 2.4, 0.5, null, null, null),
            VehicleParts.wheels(List.of(1.2, -1.2), List.of(2.0, 2.0), 0.3, 0.3),
            new Vehicle.Limits(20.0, 20.0, 15.0, null, null),
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            null,
            null,
            null);
    List<Check> few =
        MobilityExplain.at(t, Grounds.noHazard(fine), bare, Body.MOON, 312)
            .headings()
            .get(5)
            .checks();
    assertNull(find(few, "overhang"));
    assertNull(find(few, "wheels' plane"));
    assertNull(find(few, "tipping"));
    assertNull(find(few, "by power"));
  }
}
