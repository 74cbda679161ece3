package org.scarpway.report;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Base64;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/**
 * Encodes images of up to 256 colours as PNG data URIs (W3C Recommendation <i>Portable Network
 * Graphics</i>, second edition 2003, colour type 3, filter 0). Images never contain text.
 */
final class Png {
  private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};

  private Png() {}

  /**
   * @param indices one colour index per pixel, row 0 on top
   * @param argb colour table of at most 256 entries, 0xAARRGGBB
   */
  static String uri(int width, int height, byte[] indices, int[] argb) {
    ByteArrayOutputStream png = new ByteArrayOutputStream();
    png.writeBytes(SIGNATURE);
    byte[] header = new byte[13];
    putInt(header, 0, width);
    putInt(header, 4, height);
    header[8] = 8; // bits per index
    header[9] = 3; // indexed colour
    chunk(png, "IHDR", header);
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
    chunk(png, "IDAT", deflated(width, height, indices));
    chunk(png, "IEND", new byte[0]);
    return "data:image/png;base64," + Base64.getEncoder().encodeToString(png.toByteArray());
  }

  /**
   * Compresses the rows, each after its filter byte; filter 0 (none) is the best choice for
   * indices.
   */
  private static byte[] deflated(int width, int height, byte[] indices) {
    byte[] rows = new byte[height * (width + 1)];
    for (int y = 0; y < height; y++) {
      System.arraycopy(indices, y * width, rows, y * (width + 1) + 1, width);
    }
    Deflater deflater = new Deflater(6);
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
