package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.Base64;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.scarpway.drawing.Picture;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

class MapPartsTest {

  @Test
  void scaleBarIsARoundLengthNearAThirdOfTheMap() {
    assertEquals("1 km", ScaleBar.of(6000).label());
    assertEquals("500 m", ScaleBar.of(2999).label());
    assertEquals("200 m", ScaleBar.of(700).label());
    assertEquals("0.2 m", ScaleBar.of(0.9).label());
    assertEquals("50 km", ScaleBar.of(300_000).label());
    for (double w = 0.37; w < 1e7; w *= 1.7) {
      ScaleBar bar = ScaleBar.of(w);
      double share = bar.lengthM() / w;
      assertTrue(share <= 0.3 + 1e-9 && share > 0.3 / 2.5 - 1e-9, w + " m: " + bar);
    }
  }

  @Test
  void ticksAreRoundAndInside() {
    Ticks t = Ticks.between(14.2, 17.272, 7);
    assertEquals(List.of(14.5, 15.0, 15.5, 16.0, 16.5, 17.0), t.values());
    assertEquals("15.5", t.text(15.5));
    assertEquals(List.of(-0.04, -0.02, 0.0, 0.02, 0.04), Ticks.between(-0.04, 0.05, 6).values());
    assertEquals("-0.02", Ticks.between(-0.04, 0.05, 6).text(-0.02));
    assertEquals("0", Ticks.between(-100, 100, 5).text(-0.0));
    for (double span = 1e-3; span < 1e6; span *= 1.37) {
      Ticks many = Ticks.between(0.3 * span, 1.3 * span, 7);
      assertTrue(many.values().size() <= 7 && many.values().size() >= 2, span + ": " + many);
    }
  }

  @Test
  void bigGridsShrinkByMeanAndWorst() {
    GridSpec spec = new GridSpec(3, 4, 5, 5, 0, 0, "");
    PixelGrid pixels = new PixelGrid(spec, 2);
    assertEquals(2, pixels.shrink);
    assertEquals(2, pixels.width);
    assertEquals(2, pixels.height);
    float nan = Float.NaN;
    float[] mean =
        pixels.mean(
            new FloatGrid(spec, new float[] {1, 3, nan, nan, 5, 7, nan, 9, 2, 4, nan, nan}));
    assertEquals(4, mean[0]);
    assertEquals(9, mean[1]);
    assertEquals(3, mean[2]);
    assertTrue(Float.isNaN(mean[3]));
    byte[] worst =
        pixels.merged(
            new ByteGrid(spec, new byte[] {1, 1, 1, 0, 1, 2, 2, 1, 3, 1, 1, 1}),
            TilePack.Halving.WORST_CLASS);
    assertEquals(
        List.of((byte) 2, (byte) 0, (byte) 3, (byte) 1),
        List.of(worst[0], worst[1], worst[2], worst[3]));
    assertEquals(4.0 / 3, pixels.overhangY(), 1e-12);
  }

  @Test
  void imagesReadBackInAnotherDecoder() throws Exception {
    byte[] indices = {0, 1, 2, 2, 1, 0};
    int[] argb = {0x00000000, 0xFF123456, 0x80FEDCBA};
    String uri = new Picture(3, 2, indices, argb).uri();
    byte[] bytes = Base64.getDecoder().decode(uri.substring(uri.indexOf(',') + 1));
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(bytes));
    assertEquals(3, image.getWidth());
    assertEquals(2, image.getHeight());
    for (int i = 0; i < indices.length; i++) {
      assertEquals(argb[indices[i]], image.getRGB(i % 3, i / 3));
    }
  }

  @Test
  void smallGridsGrow() {
    PixelGrid pixels = new PixelGrid(new GridSpec(2, 3, 5, 10, 0, 0, ""), 30);
    assertEquals(10, pixels.grow);
    assertEquals(30, pixels.width);
    assertEquals(20, pixels.height);
    assertEquals(1, pixels.overhangX(), 1e-12);
    float[] v = pixels.mean(new FloatGrid(pixels.spec(), new float[] {1, 2, 3, 4, 5, 6}));
    assertEquals(6, v[v.length - 1]);
    assertEquals(1, v[9 * 30 + 9]);
    assertEquals(4, v[10 * 30]);
  }

  @Test
  void reliefFollowsTheReflectanceOfAMattSurface() {
    assertEquals(Math.sqrt(0.5), Relief.shade(0, 0), 1e-12);
    // A facet that faces the light is fully lit: gradient of one, falling to the north-west.
    double g = Math.sqrt(0.5);
    assertEquals(1, Relief.shade(g, -g), 1e-12);
    assertEquals(0, Relief.shade(-g, g), 1e-12);
  }

  @Test
  void noTwoClassesShareColourAndTexture() {
    for (List<ClassStyle> styles :
        List.of(ClassStyle.mobility(), ClassStyle.limits(), ClassStyle.ends())) {
      Set<String> looks = new HashSet<>();
      styles.forEach(s -> assertTrue(looks.add(s.rgb() + " " + s.pattern()), s.toString()));
    }
  }

  @Test
  void texturesRepeatAndLeaveGround() {
    for (Pattern pattern : Pattern.values()) {
      int ink = 0;
      for (int y = 0; y < 120; y++) {
        for (int x = 0; x < 120; x++) {
          ink += pattern.ink(x, y, 12) ? 1 : 0;
          assertEquals(pattern.ink(x, y, 12), pattern.ink(x + 12, y + 24, 12));
        }
      }
      assertEquals(pattern == Pattern.PLAIN, ink == 0, pattern + " has ink " + ink);
      assertTrue(ink < 120 * 120 / 2, pattern + " covers most of the ground");
    }
  }

  @Test
  void namesDoNotCoverEachOther() {
    GridSpec spec = new GridSpec(100, 100, 10, 10, 0, 1000, "");
    MapLabels labels = new MapLabels(spec);
    labels
        .add(500, 500, "target", "one")
        .add(505, 500, "target", "two")
        .add(990, 500, "base", "edge");
    labels.add(2000, 500, "base", "outside");
    assertEquals(3, labels.views().size());
    assertEquals("right", labels.views().get(0).side());
    assertEquals("left", labels.views().get(1).side());
    assertEquals("left", labels.views().get(2).side());
    assertEquals("50", labels.views().get(0).left().substring(0, 2));
  }

  @Test
  void northOfAPolarGridTurnsWithTheMeridian() {
    GridSpec spec = new GridSpec(10, 10, 10, 10, 9_950, 50, "");
    // South polar: latitude grows away from the pole, which lies to the west of this window.
    LonLat south =
        (x, y) ->
            new double[] {Math.toDegrees(Math.atan2(x, y)), -90 + Math.hypot(x, y) / 30_323.0};
    MapFrame frame = new MapFrame(spec, south);
    assertEquals("90.0", frame.northTurn);
    assertTrue(frame.northNote.contains("90.0 deg clockwise"), frame.northNote);
    assertEquals("Up is grid north.", new MapFrame(spec, LonLat.NONE).northNote);
  }
}
