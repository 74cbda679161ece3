package org.scarpway.geodata.raster;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.scarpway.geodata.file.BrokenRaster;
import org.scarpway.geodata.tiff.TiffDirectory;
import org.scarpway.stage.Reason;

/**
 * Checks the length of files in formats that store uncompressed cells after or beside a label.
 * Beyond the end of such a file GDAL returns zeros, which would be ground at height zero.
 */
final class UncompressedSizeCheck {
  /** Formats recognised only by a .hdr file of the same name beside the data file. */
  private static final Set<String> LABELLED = Set.of("EHdr", "ENVI");

  private static final List<String> SUFFIXES =
      List.of("bil", "bip", "bsq", "dat", "dem", "flt", "img", "raw");

  /** Label entry with the number of bytes before the first cell; PDS counts in records. */
  private static final Map<String, Pattern> START =
      Map.of(
          "EHdr", Pattern.compile("(?im)^\\s*skipbytes\\s+(\\d{1,15})"),
          "ENVI", Pattern.compile("(?im)^\\s*header offset\\s*=\\s*(\\d{1,15})"),
          "ISIS3", Pattern.compile("(?im)^\\s*StartByte\\s*=\\s*(\\d{1,15})"),
          "ISIS2", Pattern.compile("(?im)^\\s*\\^QUBE\\s*=\\D*?(\\d{1,15})\\W*$"),
          "PDS", Pattern.compile("(?im)^\\s*\\^IMAGE\\s*=(?:\\s*\\(\"[^\"]*\",)?\\s*(\\d{1,15})"),
          "PDS4", Pattern.compile("(?is)<Array.*?<offset[^>]*>\\s*(\\d{1,15})"),
          "VICAR", Pattern.compile("(?is)\\ALBLSIZE\\s*=\\s*(\\d{1,15})"));

  private static final Pattern RECORD =
      Pattern.compile("(?im)^\\s*RECORD_BYTES\\s*=\\s*(\\d{1,9})");

  private static final int LABEL_BYTES = 1 << 18;

  private UncompressedSizeCheck() {}

  /**
   * Refuses a file that is shorter than its label states, and one recognised as uncompressed cells
   * only because of a file beside it.
   *
   * @param partners the file and its companion files
   */
  static void requireAll(RasterHeader header, List<Path> partners, long bytesPerCell) {
    Pattern start = START.get(header.format());
    if (start == null) {
      return;
    }
    if (LABELLED.contains(header.format())) {
      requireSuffix(header.file());
    }
    double before = 0;
    long longest = 0;
    for (Path p : partners) {
      if (TiffDirectory.isTiff(p)) {
        TiffDirectory.read(p).requireWhole();
        return;
      }
      if (p.toString().toLowerCase(Locale.ROOT).endsWith(".jp2")) {
        return;
      }
      before = Math.max(before, bytesBefore(header.format(), start, label(p)));
      longest = Math.max(longest, p.toFile().length());
    }
    double needed = before + (double) header.rows() * header.cols() * header.bands() * bytesPerCell;
    if (longest < needed) {
      throw BrokenRaster.of(
          header.file(),
          String.format(Locale.ROOT, "is truncated: %d of %.0f bytes", longest, needed),
          "fetch it again");
    }
  }

  private static void requireSuffix(Path file) {
    String name = file.getFileName().toString();
    String suffix = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    if (name.contains(".") && !SUFFIXES.contains(suffix)) {
      throw BrokenRaster.of(
          file,
          "would be read as plain cells because of a .hdr file beside it",
          "name it ." + String.join(", .", SUFFIXES) + " if that is what it is");
    }
  }

  private static double bytesBefore(String format, Pattern start, String label) {
    Matcher m = start.matcher(label);
    if (!m.find()) {
      return 0;
    }
    double n = Double.parseDouble(m.group(1));
    return switch (format) {
      case "ISIS3" -> n - 1;
      case "PDS", "ISIS2" -> {
        Matcher record = RECORD.matcher(label);
        yield record.find() ? (n - 1) * Double.parseDouble(record.group(1)) : 0;
      }
      default -> n;
    };
  }

  private static String label(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      return new String(in.readNBytes(LABEL_BYTES), StandardCharsets.ISO_8859_1);
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }
}
