package org.scarpway.geodata.vector;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Random;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.stage.UserError;

class EntanglementTest {
  private static final GeometryFactory GF = new GeometryFactory();
  private static final Path FILE = Path.of("areas.geojson");

  private static Geometry polygon(int n, IntFunction<Coordinate> vertex) {
    Coordinate[] c = new Coordinate[n + 1];
    for (int i = 0; i < n; i++) {
      c[i] = vertex.apply(i);
    }
    c[n] = c[0].copy();
    return GF.createPolygon(c);
  }

  /** n / 2 turns in n edges: every edge crosses all others but its neighbours, n (n - 3) / 2. */
  private static Geometry star(int n, double x) {
    return polygon(
        n,
        i -> {
          double a = 2 * Math.PI * ((long) i * (n / 2) % n) / n;
          return new Coordinate(x + Math.cos(a), Math.sin(a));
        });
  }

  /** Valid, and yet the boxes of all its teeth lie over each other. */
  private static Geometry comb(int teeth) {
    int n = 2 * teeth + 2;
    return polygon(
        n,
        i -> {
          int tooth = i / 2;
          if (i >= 2 * teeth) {
            return new Coordinate(i == n - 1 ? 0 : teeth, i == n - 1 ? -5 : 0);
          }
          return new Coordinate(tooth + (i % 2 == 0 ? 0 : 1e6 + 0.5), i % 2 == 0 ? 0 : 1e6);
        });
  }

  private static List<Geometry> taken(Geometry... all) {
    PolygonCheck check = new PolygonCheck(FILE);
    for (Geometry g : all) {
      check.add(g, "feature");
    }
    return check.result(PolygonFile.Placement.DEM_CRS, "").polygons();
  }

  @Test
  void starsAreMendedAsLongAsTheyAreSmall() {
    // 41 * 38 / 2 = 779 crossings
    assertEquals(1, taken(star(41, 0)).size());
    assertTrue(new Entanglement().allowsMending(star(141, 0)), "141 * 138 / 2 = 9729 crossings");
    assertFalse(new Entanglement().allowsMending(star(143, 0)), "143 * 140 / 2 = 10010 crossings");
  }

  /** Sizes at which mending or checking took minutes to days. */
  @Test
  void whatWouldTakeTooLongIsRefusedInNoTime() {
    Random r = new Random(5);
    List<Geometry> all =
        List.of(
            star(3001, 0),
            star(100_001, 0),
            comb(10_000),
            comb(400_000),
            polygon(3000, i -> new Coordinate(r.nextDouble(), r.nextDouble())),
            polygon(200_000, i -> new Coordinate(i % 2, i % 2)),
            polygon(500_000, i -> new Coordinate(r.nextDouble(), r.nextDouble())));
    for (Geometry g : all) {
      UserError e =
          assertTimeout(
              Duration.ofSeconds(20), () -> assertThrows(UserError.class, () -> taken(g)));
      assertEquals(1, e.getMessage().lines().count());
    }
  }

  @Test
  void manySmallOnesCountTogether() {
    Geometry[] stars = new Geometry[100];
    for (int i = 0; i < stars.length; i++) {
      stars[i] = star(61, 3 * i);
    }
    assertThrows(UserError.class, () -> taken(stars));
    Geometry[] combs = new Geometry[2000];
    java.util.Arrays.setAll(combs, i -> comb(400));
    assertTimeout(Duration.ofSeconds(20), () -> assertThrows(UserError.class, () -> taken(combs)));
  }

  /** A border of ground, ragged at every scale, is no trouble at the full number of vertices. */
  @Test
  void raggedBordersOfAnySizePass() {
    Random r = new Random(3);
    for (int n : new int[] {100, 5000, 300_000}) {
      Geometry border =
          polygon(
              n,
              i -> {
                double a = 2 * Math.PI * i / n;
                double radius = 1000 * (1 + 0.1 * Math.sin(40 * a)) + r.nextDouble();
                return new Coordinate(radius * Math.cos(a), radius * Math.sin(a));
              });
      assertEquals(List.of(border), taken(border), n + " vertices");
    }
  }
}
