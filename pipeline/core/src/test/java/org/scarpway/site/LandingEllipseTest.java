package org.scarpway.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.Mobility;

/** Which way landing ellipses lie on the map, and that outline and figures are of one ellipse. */
class LandingEllipseTest {
  private static final String SOUTH =
      "PROJCS[\"South\",GEOGCS[\"Moon\",DATUM[\"D_Moon\",SPHEROID[\"Moon\",1737400,0]],"
          + "PRIMEM[\"Reference_Meridian\",0],UNIT[\"degree\",0.0174532925199433]],"
          + "PROJECTION[\"Polar_Stereographic\"],PARAMETER[\"latitude_of_origin\",-90],"
          + "PARAMETER[\"central_meridian\",0],PARAMETER[\"scale_factor\",1],"
          + "PARAMETER[\"false_easting\",0],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";
  private static final int N = 60;

  /** About the south pole of the Moon, cells of 10 m. */
  private static final GridSpec POLAR = new GridSpec(N, N, 10, 10, -300, 300, SOUTH);

  private static SiteParams params(double longM, double shortM, double azimuthDeg) {
    return new SiteParams(longM, shortM, azimuthDeg, Map.of());
  }

  /** Meridians of the map are rays from the pole, so true north lies at the longitude. */
  @Test
  void awayFromTheCentralMeridianTrueNorthIsNotUp() {
    Random random = new Random(21);
    for (int n = 0; n < 300; n++) {
      double lonDeg = 360 * random.nextDouble();
      double r = Math.pow(10, 5.3 * random.nextDouble());
      double x = r * Math.sin(Math.toRadians(lonDeg));
      double y = r * Math.cos(Math.toRadians(lonDeg));
      double az = 180 * random.nextDouble();
      LandingEllipse e = LandingEllipse.at(params(400, 200, az), POLAR, x, y);
      assertTrue(e.fromTrueNorth());
      assertEquals(0, Math.IEEEremainder(e.gridAzimuthDeg() - az - lonDeg, 180), 1e-6);
      LandingEllipse zero = LandingEllipse.at(params(400, 200, 0), POLAR, x, y);
      assertEquals(0, Math.IEEEremainder(zero.gridAzimuthDeg() - lonDeg, 180), 1e-6);
      assertTrue(zero.gridAzimuthDeg() >= 0 && zero.gridAzimuthDeg() < 180);
      Coordinate[] half =
          LandingEllipse.at(params(400, 200, 180), POLAR, x, y).outline().getCoordinates();
      assertEquals(zero.gridAzimuthDeg(), azimuthOf(half, x, y), 1e-6);
    }
    LandingEllipse pole = LandingEllipse.at(params(400, 200, 30), POLAR, 0, 0);
    assertFalse(pole.fromTrueNorth());
    assertEquals(30, pole.gridAzimuthDeg());
    GridSpec plane = new GridSpec(N, N, 10, 10, -300, 300, "");
    assertEquals(30, LandingEllipse.at(params(4, 2, 30), plane, 50, 70).gridAzimuthDeg());
  }

  /** Azimuth on the map of the corner farthest away, 0 to 180. */
  private static double azimuthOf(Coordinate[] ring, double x, double y) {
    Coordinate far = ring[0];
    for (Coordinate c : ring) {
      far = c.distance(new Coordinate(x, y)) > far.distance(new Coordinate(x, y)) + 1e-6 ? c : far;
    }
    double deg = Math.toDegrees(Math.atan2(far.x - x, far.y - y));
    return (deg + 360) % 180;
  }

  /** A set of cells, told from figures: all counted ones are voids, and one is 1 of so many. */
  @Test
  void theOutlineHoldsTheCellsThatAreCounted() {
    Random random = new Random(22);
    GeometryFactory points = new GeometryFactory();
    int tried = 0;
    for (int n = 0; n < 200; n++) {
      double a = 10 + 150 * random.nextDouble();
      double b = 10 + (a - 10) * random.nextDouble();
      double x = -100 + 200 * random.nextDouble();
      double y = -100 + 200 * random.nextDouble();
      LandingEllipse e =
          LandingEllipse.at(params(2 * a, 2 * b, 180 * random.nextDouble()), POLAR, x, y);
      Polygon outline = e.outline();
      assertEquals(Math.PI * a * b, outline.getArea(), 1e-4 * Math.PI * a * b);
      FloatGrid slope = FloatGrid.empty(POLAR);
      Arrays.fill(slope.values(), 1f);
      FloatGrid hazard = FloatGrid.empty(POLAR);
      Arrays.fill(hazard.values(), 0f);
      int inside = 0;
      boolean close = false;
      for (int i = 0; i < POLAR.cells(); i++) {
        var centre =
            points.createPoint(new Coordinate(POLAR.xM(i % N), POLAR.yM(Math.floorDiv(i, N))));
        close |= outline.getExteriorRing().distance(centre) < 0.01;
        if (outline.contains(centre)) {
          hazard.values()[i] = inside++ == 0 ? 1 : 0;
          slope.values()[i] = 2;
        }
      }
      if (close || inside == 0) {
        continue;
      }
      tried++;
      EllipseGround got = new EllipseGround(e, SiteGround.of(slope, hazard, ByteGrid.empty(POLAR)));
      assertEquals(2, got.meanSlopeDeg(), 0, "only cells inside the outline are counted");
      assertEquals(1.0 / inside, got.meanHazard01(), 1e-12, "and all of them");
    }
    assertTrue(tried > 100, tried + " tried");
  }

  /** Cell (row, col) goes to (col, N - 1 - row): a quarter turn clockwise. */
  private static FloatGrid turned(FloatGrid g, GridSpec spec) {
    FloatGrid t = FloatGrid.empty(spec);
    for (int row = 0; row < N; row++) {
      for (int col = 0; col < N; col++) {
        t.values()[col * N + N - 1 - row] = g.values()[row * N + col];
      }
    }
    return t;
  }

  /**
   * Ground, place and azimuth turned together change nothing. About a pole true north turns along,
   * so there the azimuth stays.
   */
  @Test
  void turnedGroundGivesTheSameFigures() {
    Random random = new Random(23);
    GridSpec plane = new GridSpec(N, N, 10, 10, -300, 300, "");
    for (GridSpec spec : List.of(plane, POLAR)) {
      int othersDiffer = 0;
      for (int n = 0; n < 40; n++) {
        FloatGrid slope = FloatGrid.empty(spec);
        FloatGrid hazard = FloatGrid.empty(spec);
        for (int i = 0; i < spec.cells(); i++) {
          boolean unknown = random.nextInt(40) == 0;
          slope.values()[i] = unknown ? Float.NaN : (float) (30 * random.nextDouble());
          hazard.values()[i] = unknown ? Float.NaN : (float) random.nextDouble();
        }
        double x = -250 + 500 * random.nextDouble();
        double y = -250 + 500 * random.nextDouble();
        double az = 180 * random.nextDouble();
        double then = spec.equals(plane) ? (az + 90) % 180 : az;
        ByteGrid cls = ByteGrid.empty(spec);
        Arrays.fill(cls.values(), Mobility.GO);
        SiteGround before = SiteGround.of(slope, hazard, cls);
        SiteGround after = SiteGround.of(turned(slope, spec), turned(hazard, spec), cls);
        SiteFigures f = figures(before, az, x, y);
        SiteFigures g = figures(after, then, y, -x);
        for (SiteFigure figure :
            List.of(
                SiteFigure.MEAN_SLOPE,
                SiteFigure.STEEP_SLOPE,
                SiteFigure.MEAN_HAZARD,
                SiteFigure.NO_HAZARD)) {
          assertEquals(f.value(figure), g.value(figure), 1e-9, figure + " towards " + az);
        }
        assertEquals(f.voidPct(), g.voidPct(), 1e-9);
        double other = figures(after, (then + 90) % 180, y, -x).value(SiteFigure.MEAN_SLOPE);
        othersDiffer += Math.abs(other - g.value(SiteFigure.MEAN_SLOPE)) > 1e-6 ? 1 : 0;
      }
      assertNotEquals(0, othersDiffer, "the azimuth counts");
    }
  }

  private static SiteFigures figures(SiteGround ground, double azimuthDeg, double x, double y) {
    return SiteComparison.measure(
        params(300, 90, azimuthDeg), ground, new SiteInput("s", x, y, List.of()));
  }
}
