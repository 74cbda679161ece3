package org.scarpway.drawing;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/**
 * Encodes images as PNG (W3C Recommendation <i>Portable Network Graphics</i>, second edition 2003,
 * filter 0): up to 256 colours by index (colour type 3) or true colours (colour type 2).
 */
final class Png {
  private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};

  private Png() {}

  /**
   * @param deflated rows of colour indices, each after its filter byte, from {@link #deflated}
   * @param argb colour table of at most 256 entries, 0xAARRGGBB
   */
  static byte[] indexed(int width, int height, byte[] deflated, int[] argb) {
    ByteArrayOutputStream png = begin(width, height, 3);
    byte[] palette = new byte[3 * argb.length];
    byte[] alpha = new byte[argb.length];
    for (int i = 0; i < argb.length; i++) {
      palette[3 * i] = (byte) (argb[i] >> 16);
      palette[3 * i + 1] = (byte) (argb[i] >> 8);
      palette[3 * i + 2] = (byte) argb[i];
      alpha[i] = (byte) (argb[i] >>> 24);
    }
    chunk(png, "PLTE", palette);
    chunk(png, "tRNS", alpha);
    return end(png, deflated);
  }

  /**
   * @param rgb one colour per pixel, row 0 on top, 0xRRGGBB
   * @param pixelsPerM resolution at which the image has its size on paper
   */
  static byte[] colours(int width, int height, int[] rgb, int pixelsPerM) {
    ByteArrayOutputStream png = begin(width, height, 2);
    byte[] size = new byte[9];
    putInt(size, 0, pixelsPerM);
    putInt(size, 4, pixelsPerM);
    size[8] = 1; // per metre
    chunk(png, "pHYs", size);
    byte[] rows = new byte[height * (3 * width + 1)];
    int at = 0;
    for (int y = 0; y < height; y++) {
      rows[at++] = 0;
      for (int i = y * width; i < (y + 1) * width; i++) {
        rows[at++] = (byte) (rgb[i] >> 16);
        rows[at++] = (byte) (rgb[i] >> 8);
        rows[at++] = (byte) rgb[i];
      }
    }
    return end(png, compressed(rows, 3));
  }

  private static ByteArrayOutputStream begin(int width, int height, int colourType) {
    ByteArrayOutputStream png = new ByteArrayOutputStream();
    png.writeBytes(SIGNATURE);
    byte[] header = new byte[13];
    putInt(header, 0, width);
    putInt(header, 4, height);
    header[8] = 8; // bits per index or colour
    header[9] = (byte) colourType;
    chunk(png, "IHDR", header);
    return png;
  }

  private static byte[] end(ByteArrayOutputStream png, byte[] deflated) {
    chunk(png, "IDAT", deflated);
    chunk(png, "IEND", new byte[0]);
    return png.toByteArray();
  }

  /**
   * Compresses the rows, each after its filter byte; filter 0 (none) is the best choice for
   * indices.
   */
  static byte[] deflated(int width, int height, byte[] indices) {
    byte[] rows = new byte[height * (width + 1)];
    for (int y = 0; y < height; y++) {
      System.arraycopy(indices, y * width, rows, y * (width + 1) + 1, width);
    }
    return compressed(rows, 6);
  }

  private static byte[] compressed(byte[] rows, int level) {
    Deflater deflater = new Deflater(level);
    try {
      deflater.setInput(rows);
      deflater.finish();
      ByteArrayOutputStream out = new ByteArrayOutputStream(rows.length / 4 + 64);
      byte[] buffer = new byte[1 << 16];
      while (!deflater.finished()) {
        out.write(buffer, 0, deflater.deflate(buffer));
      }
      return out.toByteArray();
    } finally {
      deflater.end();
    }
  }

  private static void chunk(ByteArrayOutputStream png, String type, byte[] content) {
    byte[] number = new byte[4];
    putInt(number, 0, content.length);
    png.writeBytes(number);
    byte[] name = type.getBytes(StandardCharsets.US_ASCII);
    byte[] body = Arrays.copyOf(name, 4 + content.length);
    System.arraycopy(content, 0, body, 4, content.length);
    png.writeBytes(body);
    CRC32 crc = new CRC32();
    crc.update(body);
    putInt(number, 0, (int) crc.getValue());
    png.writeBytes(number);
  }

  private static void putInt(byte[] target, int at, int value) {
    for (int i = 0; i < 4; i++) {
      target[at + i] = (byte) (value >> (24 - 8 * i));
    }
  }
}
