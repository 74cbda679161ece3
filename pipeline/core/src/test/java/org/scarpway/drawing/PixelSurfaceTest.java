package org.scarpway.drawing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.metadata.IIOMetadataNode;
import org.junit.jupiter.api.Test;
import org.scarpway.drawing.Surface.Anchor;
import org.scarpway.drawing.Surface.Box;
import org.scarpway.drawing.Surface.Hand;
import org.scarpway.drawing.Surface.Stroke;

/** What is drawn, read back by Java's own PNG reader. */
class PixelSurfaceTest {
  private static final double DPI = 254;
  private static final double PIXEL_MM = 0.1;

  private static BufferedImage image(PixelSurface drawn) throws Exception {
    return ImageIO.read(new ByteArrayInputStream(drawn.png()));
  }

  /** Ink in pixels: the darkness of all pixels together. */
  private static double ink(BufferedImage image) {
    double sum = 0;
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        sum += (255 - (image.getRGB(x, y) & 0xFF)) / 255.0;
      }
    }
    return sum;
  }

  @Test
  void pngStatesItsSizeOnPaper() throws Exception {
    byte[] png = new PixelSurface(50, 20, DPI).png();
    ImageReader reader = ImageIO.getImageReadersByFormatName("png").next();
    reader.setInput(ImageIO.createImageInputStream(new ByteArrayInputStream(png)));
    assertEquals(500, reader.getWidth(0));
    assertEquals(200, reader.getHeight(0));
    IIOMetadataNode root =
        (IIOMetadataNode) reader.getImageMetadata(0).getAsTree("javax_imageio_png_1.0");
    IIOMetadataNode size = (IIOMetadataNode) root.getElementsByTagName("pHYs").item(0);
    assertEquals("10000", size.getAttribute("pixelsPerUnitXAxis"));
    assertEquals("meter", size.getAttribute("unitSpecifier"));
  }

  /** Closed forms: a line with round ends is 2 r l + pi r2, a polygon its shoelace area. */
  @Test
  void areasOfShapesAreThoseOfGeometry() throws Exception {
    Random random = new Random(5);
    for (int k = 0; k < 40; k++) {
      double ax = 5 + 20 * random.nextDouble();
      double ay = 5 + 20 * random.nextDouble();
      double bx = 5 + 20 * random.nextDouble();
      double by = 5 + 20 * random.nextDouble();
      double width = 0.4 + random.nextDouble();
      PixelSurface line = new PixelSurface(30, 30, DPI);
      line.lines(List.of(new double[] {ax, ay, bx, by}), new Stroke(0, width));
      double length = Math.hypot(bx - ax, by - ay);
      double mm2 = width * length + Math.PI * width * width / 4;
      assertEquals(mm2, ink(image(line)) * PIXEL_MM * PIXEL_MM, 0.02 * mm2 + 0.02);
      double cx = 5 + 20 * random.nextDouble();
      double cy = 5 + 20 * random.nextDouble();
      PixelSurface fill = new PixelSurface(30, 30, DPI);
      fill.fill(new double[] {ax, ay, bx, by, cx, cy}, 0);
      double area = Math.abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)) / 2;
      assertEquals(area, ink(image(fill)) * PIXEL_MM * PIXEL_MM, 0.02 * area + 0.05);
    }
  }

  @Test
  void dashesLeaveTheShareOfTheirGaps() throws Exception {
    double drawn = 0;
    for (double[] part :
        PixelSurface.dashes(new double[] {0, 0, 6, 8, 6, 108}, List.of(3.0, 2.0))) {
      drawn += Math.hypot(part[2] - part[0], part[3] - part[1]);
    }
    assertEquals(110 * 0.6, drawn, 1e-9);
  }

  @Test
  void pictureFillsItsBoxAndNothingBeyondTheClip() throws Exception {
    Picture picture =
        new Picture(2, 2, new byte[] {0, 1, 1, 0}, new int[] {0xFF0000FF, 0x80FF0000});
    PixelSurface on = new PixelSurface(10, 10, DPI);
    on.within(new Box(2, 2, 3, 4));
    on.picture(picture, new Box(2, 2, 4, 4));
    on.whole();
    BufferedImage image = image(on);
    for (int y = 0; y < 100; y++) {
      for (int x = 0; x < 100; x++) {
        boolean in = x >= 20 && x < 50 && y >= 20 && y < 60;
        boolean first = x < 40 == y < 40;
        // Half red over white is 0xFF7F7F, to a step.
        int want = !in ? 0xFFFFFF : first ? 0x0000FF : 0xFF7F7F;
        assertEquals(want, image.getRGB(x, y) & 0xFFFFFF, x + " " + y);
      }
    }
  }

  @Test
  void partsOfAPictureAreItsPixels() {
    byte[] indices = new byte[30];
    for (int i = 0; i < indices.length; i++) {
      indices[i] = (byte) i;
    }
    Picture all = new Picture(6, 5, indices, new int[30]);
    byte[] part = all.part(2, 1, 5, 4).indices();
    for (int y = 0; y < 3; y++) {
      for (int x = 0; x < 3; x++) {
        assertEquals((y + 1) * 6 + x + 2, part[y * 3 + x]);
      }
    }
  }

  /** Words lie in the room that is told for them, on the side of their anchor, in every turn. */
  @Test
  void wordsStayInTheirRoom() throws Exception {
    for (Anchor anchor : Anchor.values()) {
      String text = "Reach 12.5 km² Ångström 90°";
      Hand hand = new Hand(3, anchor, false, false);
      PixelSurface on = new PixelSurface(160, 20, DPI);
      on.words(text, 80, 10, 0, hand);
      BufferedImage image = image(on);
      int left = Integer.MAX_VALUE;
      int right = 0;
      for (int y = 0; y < image.getHeight(); y++) {
        for (int x = 0; x < image.getWidth(); x++) {
          if ((image.getRGB(x, y) & 0xFF) < 128) {
            left = Math.min(left, x);
            right = Math.max(right, x);
            assertTrue(y > 65 && y < 110, "above or below its line: " + y);
          }
        }
      }
      double room = Surface.widthMm(text, 3);
      double begins = 80 - room * (anchor == Anchor.START ? 0 : anchor == Anchor.END ? 1 : 0.5);
      assertTrue(left * PIXEL_MM >= begins - 0.3, anchor + " begins at " + left);
      assertTrue(right * PIXEL_MM <= begins + room + 0.6, anchor + " ends at " + right);
    }
  }

  @Test
  void noTwoLettersLookAlike() {
    for (char a = '!'; a <= '~'; a++) {
      for (char b = (char) (a + 1); b <= '~'; b++) {
        assertTrue(!shape(a).equals(shape(b)), a + " is drawn as " + b);
      }
      assertTrue(!shape(a).equals(shape('\uFFFD')), a + " is not known");
    }
  }

  private static String shape(char c) {
    StringBuilder all = new StringBuilder();
    for (double[] stroke : Letters.strokes(String.valueOf(c), 0, 0, 0, 1, 0)) {
      all.append(Arrays.toString(stroke));
    }
    return all.toString();
  }
}
