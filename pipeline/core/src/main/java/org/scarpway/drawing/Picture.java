package org.scarpway.drawing;

import java.util.Base64;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/** An image of up to 256 colours, kept compressed. Images never contain text. */
public final class Picture {
  private final int width;
  private final int height;
  private final byte[] deflated;
  private final int[] argb;

  /**
   * @param indices one colour index per pixel, row 0 on top
   * @param argb colour table of at most 256 entries, 0xAARRGGBB
   */
  public Picture(int width, int height, byte[] indices, int[] argb) {
    this.width = width;
    this.height = height;
    this.deflated = Png.deflated(width, height, indices);
    this.argb = argb.clone();
  }

  public int width() {
    return width;
  }

  public int height() {
    return height;
  }

  /** Returns the colour of an index, 0xAARRGGBB. */
  int argb(int index) {
    return argb[index];
  }

  /** Returns the image as a PNG data URI. */
  public String uri() {
    byte[] png = Png.indexed(width, height, deflated, argb);
    return "data:image/png;base64," + Base64.getEncoder().encodeToString(png);
  }

  /** Returns the part of the image from pixel (x0, y0) up to but not including (x1, y1). */
  public Picture part(int x0, int y0, int x1, int y1) {
    if (x0 == 0 && y0 == 0 && x1 == width && y1 == height) {
      return this;
    }
    byte[] all = indices();
    byte[] some = new byte[(x1 - x0) * (y1 - y0)];
    for (int y = y0; y < y1; y++) {
      System.arraycopy(all, y * width + x0, some, (y - y0) * (x1 - x0), x1 - x0);
    }
    return new Picture(x1 - x0, y1 - y0, some, argb);
  }

  /** Returns one colour index per pixel. */
  byte[] indices() {
    Inflater inflater = new Inflater();
    try {
      inflater.setInput(deflated);
      byte[] rows = new byte[height * (width + 1)];
      for (int n = 0; n < rows.length; ) {
        n += inflater.inflate(rows, n, rows.length - n);
      }
      byte[] out = new byte[width * height];
      for (int y = 0; y < height; y++) {
        System.arraycopy(rows, y * (width + 1) + 1, out, y * width, width);
      }
      return out;
    } catch (DataFormatException e) {
      throw new IllegalStateException("an image of the program is damaged", e);
    } finally {
      inflater.end();
    }
  }
}
