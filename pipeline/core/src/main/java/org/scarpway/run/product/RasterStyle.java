package org.scarpway.run.product;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.report.CodeColours;
import org.scarpway.stage.Digits;

/**
 * Writes what other programs need to draw a raster as the report does: a style in OGC Styled Layer
 * Descriptor 1.0.0 (OGC 02-070) beside every raster, and the names of classes as GDAL reads them
 * from a side file.
 */
public final class RasterStyle {
  private static final String SLD =
      """
      <?xml version="1.0" encoding="UTF-8"?>
      <StyledLayerDescriptor version="1.0.0" xmlns="http://www.opengis.net/sld" \
      xmlns:ogc="http://www.opengis.net/ogc" xmlns:xlink="http://www.w3.org/1999/xlink" \
      xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" \
      xsi:schemaLocation="http://www.opengis.net/sld \
      http://schemas.opengis.net/sld/1.0.0/StyledLayerDescriptor.xsd">
        <NamedLayer>
          <Name>%s</Name>
          <UserStyle>
            <Title>%s</Title>
            <FeatureTypeStyle>
              <Rule>
                <RasterSymbolizer>
                  <ColorMap>
      %s            </ColorMap>
                </RasterSymbolizer>
              </Rule>
            </FeatureTypeStyle>
          </UserStyle>
        </NamedLayer>
      </StyledLayerDescriptor>
      """;

  private static final String NAMES =
      """
      <PAMDataset>
        <PAMRasterBand band="1">
          <CategoryNames>
      %s    </CategoryNames>
        </PAMRasterBand>
      </PAMDataset>
      """;

  /** One colour of a style. */
  private record Entry(double value, int rgb, double opacity, String label) {}

  private RasterStyle() {}

  /**
   * Writes the files of a raster.
   *
   * @param dir its folder
   * @param name of the raster without extension
   * @param info what its cells mean
   * @param least the least value of an amount; NaN if there is none
   * @param most the largest value of it
   */
  public static void write(Path dir, String name, BandInfo info, double least, double most) {
    Map<Integer, String> meanings = info.meanings();
    List<Entry> entries =
        info.colours().isEmpty() ? ramp(info, least, most) : classes(info.colours(), meanings);
    if (drawn(info)) {
      put(dir.resolve(style(name)), sld(name, info, entries));
    }
    if (!meanings.isEmpty()) {
      put(dir.resolve(names(name)), names(meanings));
    }
  }

  /** True if there is a style: for amounts, and for codes with colours. */
  static boolean drawn(BandInfo info) {
    return !info.colours().isEmpty() || !info.unit().equals("code");
  }

  /** The file of a raster's style. */
  static String style(String raster) {
    return raster + ".sld";
  }

  /** The file with the names of a raster's classes. */
  static String names(String raster) {
    return raster + ".tif.aux.xml";
  }

  /** Classes; no data is transparent. Codes are whole, so that a ramp between them is not met. */
  private static List<Entry> classes(Map<Integer, Integer> colours, Map<Integer, String> meanings) {
    List<Entry> all = new ArrayList<>();
    all.add(new Entry(0, 0, 0, "no data"));
    colours.forEach(
        (code, rgb) -> all.add(new Entry(code, rgb, 1, meanings.getOrDefault(code, "" + code))));
    return all;
  }

  private static List<Entry> ramp(BandInfo info, double least, double most) {
    List<Entry> all = new ArrayList<>();
    if (!(most >= least)) {
      return List.of(new Entry(0, 0, 0, "no data"));
    }
    List<Integer> colours = CodeColours.ramp();
    int last = most > least ? colours.size() - 1 : 0;
    for (int i = 0; i <= last; i++) {
      double value = last == 0 ? least : least + (most - least) * i / last;
      String unit = info.unit().isEmpty() || info.unit().equals("1") ? "" : " " + info.unit();
      all.add(new Entry(value, colours.get(i), 1, Digits.of(value) + unit));
    }
    return all;
  }

  private static String sld(String name, BandInfo info, List<Entry> entries) {
    StringBuilder lines = new StringBuilder();
    for (Entry e : entries) {
      lines
          .append("              <ColorMapEntry color=\"#")
          .append(String.format(Locale.ROOT, "%06X", e.rgb))
          .append("\" quantity=\"")
          .append(text(e.value))
          .append("\" opacity=\"")
          .append(text(e.opacity))
          .append("\" label=\"")
          .append(escaped(e.label))
          .append("\"/>\n");
    }
    return SLD.formatted(escaped(name), escaped(info.description()), lines);
  }

  private static String names(Map<Integer, String> meanings) {
    int most = meanings.keySet().stream().mapToInt(i -> i).max().orElseThrow();
    StringBuilder lines = new StringBuilder();
    for (int code = 0; code <= most; code++) {
      String name = code == 0 ? "no data" : meanings.getOrDefault(code, "");
      lines.append("      <Category>").append(escaped(name)).append("</Category>\n");
    }
    return NAMES.formatted(lines);
  }

  private static String text(double v) {
    return v == Math.rint(v) && Math.abs(v) < 1e9 ? Long.toString((long) v) : Double.toString(v);
  }

  private static String escaped(String s) {
    return s.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  private static void put(Path file, String text) {
    AtomicFileWrite.write(file, part -> Files.writeString(part, text));
  }
}
