package org.scarpway.geodata.raster;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.scarpway.geodata.crs.WktTree;
import org.scarpway.geodata.file.BrokenRaster;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/**
 * An ASCII grid: header lines of keyword and value (ncols, nrows, xllcorner or xllcenter, yllcorner
 * or yllcenter, cellsize or dx and dy, NODATA_value), then the cells row by row from the north. One
 * pass records the byte offset of each row, so that windows are read without reading the rest.
 */
final class AsciiGridFile implements OpenRaster {
  private static final Set<String> KEYWORDS =
      Set.of(
          "ncols",
          "nrows",
          "xllcorner",
          "xllcenter",
          "yllcorner",
          "yllcenter",
          "cellsize",
          "dx",
          "dy",
          "nodata_value");
  private static final int MAX_TOKEN = 64;
  private static final int MAX_CRS_BYTES = 1 << 16;

  private final Path file;
  private final RasterHeader header;
  private final long[] rowAt;

  private AsciiGridFile(Path file, RasterHeader header, long[] rowAt) {
    this.file = file;
    this.header = header;
    this.rowAt = rowAt;
  }

  /** True if the file begins like an ASCII grid. */
  static boolean isAsciiGrid(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      String head = new String(in.readNBytes(64), StandardCharsets.ISO_8859_1);
      String first = head.strip().split("\\s+", 2)[0].toLowerCase(Locale.ROOT);
      return KEYWORDS.contains(first);
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }

  static AsciiGridFile open(Path file) {
    try (Tokens in = new Tokens(file, 0)) {
      Map<String, String> keys = new HashMap<>();
      String token = in.next();
      while (token != null && KEYWORDS.contains(token.toLowerCase(Locale.ROOT))) {
        keys.put(token.toLowerCase(Locale.ROOT), String.valueOf(in.next()));
        token = in.next();
      }
      int cols = count(file, keys, "ncols");
      int rows = count(file, keys, "nrows");
      // A cell needs at least two bytes of text.
      if ((long) rows * cols > Files.size(file)) {
        throw damaged(file, "too short for " + rows + " x " + cols + " cells");
      }
      long[] rowAt = new long[rows];
      for (int r = 0; r < rows; r++) {
        for (int c = 0; c < cols; c++) {
          if (token == null) {
            throw damaged(file, "it ends in row " + r + ", column " + c);
          }
          if (c == 0) {
            rowAt[r] = in.tokenAt();
          }
          token = in.next();
        }
      }
      if (token != null) {
        throw damaged(file, "more cells than " + rows + " x " + cols);
      }
      return new AsciiGridFile(file, headerOf(file, keys, rows, cols), rowAt);
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }

  private static RasterHeader headerOf(Path file, Map<String, String> keys, int rows, int cols)
      throws IOException {
    boolean square = keys.containsKey("cellsize");
    double dx = number(file, keys, square ? "cellsize" : "dx");
    double dy = number(file, keys, square ? "cellsize" : "dy");
    boolean centreX = keys.containsKey("xllcenter");
    boolean centreY = keys.containsKey("yllcenter");
    double west = number(file, keys, centreX ? "xllcenter" : "xllcorner") - (centreX ? dx / 2 : 0);
    double south = number(file, keys, centreY ? "yllcenter" : "yllcorner") - (centreY ? dy / 2 : 0);
    RasterPlace.requireCells(file, dx, 0, 0, dy);
    return new RasterHeader(
        file,
        "AAIGrid",
        rows,
        cols,
        1,
        new RasterHeader.Affine(west, dx, 0, south + rows * dy, 0, -dy),
        crs(file),
        "Float64",
        keys.containsKey("nodata_value") ? (Double) number(file, keys, "nodata_value") : null,
        1,
        0,
        "");
  }

  /** The text of the .prj file beside the grid, the only place where its CRS can be named. */
  private static String crs(Path file) throws IOException {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    Path prj = file.resolveSibling((dot < 0 ? name : name.substring(0, dot)) + ".prj");
    if (!Files.isRegularFile(prj)) {
      return "";
    }
    try {
      if (Files.size(prj) > MAX_CRS_BYTES) {
        throw new IllegalArgumentException("longer than " + MAX_CRS_BYTES + " bytes");
      }
      return WktTree.parse(Files.readString(prj, StandardCharsets.UTF_8).strip())
          .without("AXIS")
          .toString();
    } catch (IllegalArgumentException e) {
      throw UserError.of(
          prj.toString(),
          "cannot be understood (" + e.getMessage() + ")",
          "WKT 1 text",
          "rewrite it");
    }
  }

  @Override
  public RasterHeader header() {
    return header;
  }

  @Override
  public void readStored(int firstRow, int firstCol, int rows, int cols, double[] out) {
    int after = header.cols() - firstCol - cols;
    try (Tokens in = new Tokens(file, rowAt[firstRow])) {
      for (int r = 0; r < rows; r++) {
        in.skip(firstCol);
        for (int c = 0; c < cols; c++) {
          out[r * cols + c] = value(in.next(), firstRow + r, firstCol + c);
        }
        in.skip(after);
      }
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }

  private double value(String token, int row, int col) {
    Double v = token == null ? null : parsed(token);
    if (v == null) {
      throw damaged(file, "'" + token + "' in row " + row + ", column " + col);
    }
    return v;
  }

  @Override
  public void close() {}

  private static Double parsed(String token) {
    if (token.equalsIgnoreCase("nan")) {
      return Double.NaN;
    }
    try {
      return Double.valueOf(token);
    } catch (NumberFormatException e) {
      return null;
    }
  }

  private static double number(Path file, Map<String, String> keys, String key) {
    String text = keys.get(key);
    Double v = text == null ? null : parsed(text);
    if (v == null) {
      throw damaged(file, text == null ? "no " + key : key + " is '" + text + "'");
    }
    return v;
  }

  private static int count(Path file, Map<String, String> keys, String key) {
    double v = number(file, keys, key);
    if (!(v >= 1) || v > Integer.MAX_VALUE || v != Math.rint(v)) {
      throw damaged(file, key + " is " + v);
    }
    return (int) v;
  }

  private static UserError damaged(Path file, String what) {
    return BrokenRaster.of(
        file, "is not a complete text grid (" + what + ")", "fetch or convert it again");
  }

  /** Splits the file into words at white space, with the byte offset of each. */
  private static final class Tokens implements AutoCloseable {
    private final InputStream in;
    private final byte[] token = new byte[MAX_TOKEN];
    private final Path file;
    private long at;
    private long tokenAt;

    Tokens(Path file, long from) throws IOException {
      FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
      channel.position(from);
      this.in = new BufferedInputStream(Channels.newInputStream(channel), 1 << 16);
      this.file = file;
      this.at = from;
    }

    /** The next word, or null at the end. */
    String next() throws IOException {
      int b = read();
      while (b == ' ' || b == '\n' || b == '\r' || b == '\t') {
        b = read();
      }
      if (b < 0) {
        return null;
      }
      tokenAt = at - 1;
      int n = 0;
      while (b > ' ') {
        if (n == MAX_TOKEN) {
          throw damaged(file, "a word of more than " + MAX_TOKEN + " characters");
        }
        token[n++] = (byte) b;
        b = read();
      }
      return new String(token, 0, n, StandardCharsets.ISO_8859_1);
    }

    void skip(int words) throws IOException {
      for (int i = 0; i < words; i++) {
        next();
      }
    }

    long tokenAt() {
      return tokenAt;
    }

    private int read() throws IOException {
      int b = in.read();
      at++;
      return b;
    }

    @Override
    public void close() throws IOException {
      in.close();
    }
  }
}
