package org.scarpway.flow;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/** Turns elevation arrays that packages carry in formats of their own into text grids. */
final class RegistryDems {
  static final String WGS84 =
      "GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,298.257223563]],"
          + "PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]]";

  private RegistryDems() {}

  /**
   * The fault zone of python-matplotlib-data: 344 x 403 heights (int16, m) at 1/1200 degree, whose
   * ymin is the northern edge.
   */
  static Path jacksboro(Path dir) throws IOException {
    Path file = dir.resolve("jacksboro.asc");
    try (ZipFile zip = new ZipFile(Flow.DATA.resolve("jacksboro.npz").toFile())) {
      ByteBuffer z = array(zip, "elevation.npy", "'<i2'", "(344, 403)");
      double west = array(zip, "xmin.npy", "'<f8'", "()").getDouble();
      double south = array(zip, "ymax.npy", "'<f8'", "()").getDouble();
      double cell = array(zip, "dx.npy", "'<f8'", "()").getDouble();
      StringBuilder text = head(344, 403, west, south, cell);
      for (int r = 0; r < 344; r++) {
        for (int c = 0; c < 403; c++) {
          text.append(z.getShort()).append(c < 402 ? ' ' : '\n');
        }
      }
      Files.writeString(file, text);
    }
    Files.writeString(dir.resolve("jacksboro.prj"), WGS84);
    return file;
  }

  /** The crater of vega-datasets: 61 x 87 heights (m) of 10 m cells, tied to no place. */
  static Path volcano(Path dir) throws IOException {
    JsonNode json = new ObjectMapper().readTree(Flow.DATA.resolve("volcano.json").toFile());
    int cols = json.get("width").asInt();
    int rows = json.get("height").asInt();
    StringBuilder text = head(rows, cols, 0, 0, 10);
    for (int i = 0; i < rows * cols; i++) {
      text.append(json.get("values").get(i).asText()).append(i % cols < cols - 1 ? ' ' : '\n');
    }
    return Files.writeString(dir.resolve("volcano.asc"), text);
  }

  private static StringBuilder head(int rows, int cols, double west, double south, double cell) {
    return new StringBuilder()
        .append("ncols ")
        .append(cols)
        .append("\nnrows ")
        .append(rows)
        .append("\nxllcorner ")
        .append(west)
        .append("\nyllcorner ")
        .append(south)
        .append("\ncellsize ")
        .append(cell)
        .append('\n');
  }

  /** The values of one array file (format 1.0 of numpy), which must be of this type and shape. */
  private static ByteBuffer array(ZipFile zip, String name, String type, String shape)
      throws IOException {
    ZipEntry entry = zip.getEntry(name);
    byte[] all = zip.getInputStream(entry).readAllBytes();
    ByteBuffer b = ByteBuffer.wrap(all).order(ByteOrder.LITTLE_ENDIAN);
    int length = b.getShort(8);
    String header = new String(all, 10, length, StandardCharsets.ISO_8859_1);
    if (!header.contains(type)
        || !header.contains("'shape': " + shape)
        || !header.contains("'fortran_order': False")) {
      throw new IOException(name + " holds " + header);
    }
    b.position(10 + length);
    return b.slice().order(ByteOrder.LITTLE_ENDIAN);
  }
}
