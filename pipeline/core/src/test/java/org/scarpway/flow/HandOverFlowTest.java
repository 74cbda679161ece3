package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.gdal.gdal.Band;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconst;
import org.gdal.ogr.DataSource;
import org.gdal.ogr.Feature;
import org.gdal.ogr.Layer;
import org.gdal.ogr.ogr;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/**
 * What a map program gets of a run, as GDAL reads it: names, words, causes, classes and colours.
 */
class HandOverFlowTest {
  @TempDir static Path dir;
  private static Path products;

  @BeforeAll
  static void run() throws IOException {
    Path job = SmallJob.write(dir.resolve("job.yaml"), "small", 10);
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    products = dir.resolve("out/small");
    gdal.AllRegister();
    ogr.RegisterAll();
  }

  private static List<Path> files(String extension) throws IOException {
    try (Stream<Path> all = Files.walk(products)) {
      return all.filter(f -> f.toString().endsWith(extension)).sorted().toList();
    }
  }

  /** Layers of all files can be told apart by name, and say what they are. */
  @Test
  void layersHaveNamesOfTheirOwnAndDescriptions() throws IOException {
    TreeMap<String, Path> names = new TreeMap<>();
    for (Path file : files(".gpkg")) {
      DataSource source = ogr.Open(file.toString());
      for (int i = 0; i < source.GetLayerCount(); i++) {
        Layer layer = source.GetLayer(i);
        assertEquals(null, names.put(layer.GetName(), file), layer.GetName());
        assertTrue(layer.GetMetadataItem("DESCRIPTION").length() > 20, layer.GetName());
        assertFalse(layer.GetMetadataItem("IDENTIFIER").isEmpty(), layer.GetName());
      }
      source.delete();
    }
    assertTrue(
        names
            .keySet()
            .containsAll(
                List.of(
                    "no_go_open_buggy",
                    "bands_day",
                    "corridor_across",
                    "centreline_across",
                    "legs_across",
                    "stops_across")),
        names.keySet().toString());
  }

  @Test
  void noGoPolygonsNameTheirCause() {
    DataSource source = ogr.Open(products.resolve("mobility/open-buggy/no_go.gpkg").toString());
    Layer layer = source.GetLayer(0);
    int polygons = 0;
    for (Feature f = layer.GetNextFeature(); f != null; f = layer.GetNextFeature()) {
      double pct = f.GetFieldAsDouble("cause_pct");
      assertTrue(pct > 0 && pct <= 100 + 1e-9, "share " + pct);
      assertTrue(f.GetFieldAsString("causes").startsWith(f.GetFieldAsString("cause") + " "));
      assertFalse(f.GetFieldAsString("cause").equals("none"));
      polygons++;
    }
    source.delete();
    assertTrue(polygons > 0);
  }

  /** Names and reasons of keep-out areas, from both formats, by OGR. */
  @Test
  void keepOutAreasKeepTheirNamesAndReasons() throws IOException {
    Path one =
        Files.writeString(
            dir.resolve("areas.geojson"),
            """
            {"type": "FeatureCollection", "scarpway:coordinates": "projected", "features": [
              {"type": "Feature", "properties": {"name": "Old probe", "n": {"a": [1]}, "reason": "heritage\\nsite"},
               "geometry": {"type": "Polygon", "coordinates": [[[72200, 93900], [72220, 93900], [72220, 93920], [72200, 93900]]]}},
              {"type": "Feature", "properties": null,
               "geometry": {"type": "Polygon", "coordinates": [[[72080, 94000], [72090, 94000], [72090, 94010], [72080, 94000]]]}}]}
            """);
    Path job = SmallJob.write(dir.resolve("named.yaml"), "named", 10);
    Files.writeString(
        job, Files.readString(job).replaceAll("keep_out: \\[[^]]*\\]", "keep_out: [" + one + "]"));
    Flow.scarpway("run", job, "--out", dir.resolve("named"), "--quiet").ok();
    Path hazard = dir.resolve("named/named/hazard");
    // The page tells them of a picked place.
    String page = Files.readString(dir.resolve("named/named/index.html"));
    assertTrue(page.contains("\"says\":\"'Old probe' (heritage site)\""));
    assertTrue(page.contains("\"says\":\"area 2 of areas.geojson\""));
    // The triangle's sides: a place within is 2.5 m from the nearest, one beyond 30 m west of it.
    String inside = Flow.scarpway("explain", job, "72217.5", "93902.5").ok().out();
    assertTrue(inside.contains("inside 'Old probe' (heritage site), 2.5 m from its edge"), inside);
    String beyond = Flow.scarpway("explain", job, "72170", "93900").ok().out();
    assertTrue(beyond.contains("30 m from the edge of 'Old probe' (heritage site), the"), beyond);
    String beside = Flow.scarpway("explain", job, "72232", "93905").ok().out();
    assertTrue(beside.contains("12 m from the edge of 'Old probe'"), beside);
    assertTrue(beside.contains("its margin closes this cell to open-buggy"), beside);
    List<Table.Row> rows = Table.read(hazard.resolve("keep_out.csv")).rows();
    assertEquals(2, rows.size());
    assertEquals("Old probe", rows.get(0).text("name"));
    assertEquals("heritage site", rows.get(0).text("reason"));
    // The map of the products is true to scale, the raster's own within half a percent.
    assertEquals(200, rows.get(0).number("area_m2"), 1);
    assertEquals("", rows.get(1).text("name"));
    // What was written is read with its words as a file of a user's own.
    Files.copy(hazard.resolve("keep_out_areas.gpkg"), dir.resolve("again.gpkg"));
    Files.writeString(
        job, Files.readString(job).replace(one.toString(), dir.resolve("again.gpkg").toString()));
    Flow.scarpway("run", job, "--out", dir.resolve("again"), "--quiet").ok();
    assertEquals(
        Files.readString(hazard.resolve("keep_out.csv")),
        Files.readString(dir.resolve("again/named/hazard/keep_out.csv")));
  }

  /** Off Earth nothing speaks the terms of military reconnaissance. */
  @Test
  void offEarthNoClassesOfReconnaissance() throws IOException {
    assertFalse(
        Files.readString(products.resolve("terrain/slope_classes.csv")).contains("terrain"));
    assertFalse(Files.readString(products.resolve("corridor/across/route.csv")).contains("class"));
    String report = Files.readString(products.resolve("index.html"));
    for (String term : List.of("obstruction", "STANAG", "FM 5-33", "severely restricted")) {
      assertFalse(report.contains(term), term);
    }
  }

  /** Every code of a raster of classes has a name and, as in its style, a colour. */
  @Test
  void codesHaveNamesAndColours() throws Exception {
    int palettes = 0;
    // The program itself reads no side files; a map program does.
    String sources = gdal.GetConfigOption("GDAL_GEOREF_SOURCES");
    gdal.SetConfigOption("GDAL_PAM_ENABLED", "YES");
    gdal.SetConfigOption("GDAL_GEOREF_SOURCES", "PAM,INTERNAL");
    for (Path file : files(".tif")) {
      Dataset raster = gdal.Open(file.toString());
      Band band = raster.GetRasterBand(1);
      // GDAL reads the side file with the first thing that may stand in it.
      raster.GetGeoTransform();
      if (band.GetRasterColorInterpretation() == gdalconst.GCI_PaletteIndex) {
        palettes++;
        List<?> names = band.GetRasterCategoryNames();
        NavigableMap<Integer, String> style = style(file, "label");
        NavigableMap<Integer, String> colours = style(file, "color");
        byte[] cells = new byte[raster.GetRasterXSize() * raster.GetRasterYSize()];
        band.ReadRaster(
            0, 0, raster.GetRasterXSize(), raster.GetRasterYSize(), gdalconst.GDT_Byte, cells);
        for (byte code : cells) {
          int at = code & 0xFF;
          assertTrue(at < names.size() && !names.get(at).toString().isEmpty(), file + " " + at);
          assertEquals(names.get(at), style.get(at), file + " " + at);
          java.awt.Color c = band.GetRasterColorTable().GetColorEntry(at);
          String hex = String.format("#%02X%02X%02X", c.getRed(), c.getGreen(), c.getBlue());
          assertEquals(colours.get(at), hex, file + " " + at);
        }
      }
      raster.delete();
    }
    gdal.SetConfigOption("GDAL_PAM_ENABLED", "NO");
    gdal.SetConfigOption("GDAL_GEOREF_SOURCES", sources);
    assertEquals(6, palettes, "class, limit, dominant, state, binding, band");
  }

  /** Styles rise, span the values that GDAL finds, and have a colour and a label each. */
  @Test
  void everyAmountHasAStyleOverItsRange() throws Exception {
    int styles = 0;
    for (Path file : files(".tif")) {
      Dataset raster = gdal.Open(file.toString());
      Band band = raster.GetRasterBand(1);
      Path sld = Path.of(file.toString().replace(".tif", ".sld"));
      if (band.getDataType() == gdalconst.GDT_Float32 && Files.exists(sld)) {
        styles++;
        double[] range = {0, 0};
        band.ComputeRasterMinMax(range, 0);
        NodeList entries = entries(sld);
        double last = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < entries.getLength(); i++) {
          Element e = (Element) entries.item(i);
          double value = Double.parseDouble(e.getAttribute("quantity"));
          assertTrue(value > last, sld + " " + value);
          assertTrue(e.getAttribute("color").matches("#[0-9A-F]{6}"));
          assertFalse(e.getAttribute("label").isBlank());
          last = value;
        }
        double first = Double.parseDouble(((Element) entries.item(0)).getAttribute("quantity"));
        double close = 1e-6 * Math.max(1, Math.abs(range[1]));
        if (Double.isFinite(range[0] + range[1])) {
          assertEquals(range[0], first, close, sld.toString());
          assertEquals(range[1], last, close, sld.toString());
        }
      }
      raster.delete();
    }
    assertTrue(styles > 15, styles + " styles");
  }

  private static NodeList entries(Path sld) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    var page = factory.newDocumentBuilder().parse(sld.toFile());
    assertEquals("StyledLayerDescriptor", page.getDocumentElement().getLocalName());
    NodeList entries = page.getElementsByTagNameNS("http://www.opengis.net/sld", "ColorMapEntry");
    assertTrue(entries.getLength() > 0, sld.toString());
    return entries;
  }

  private static NavigableMap<Integer, String> style(Path raster, String attribute)
      throws Exception {
    TreeMap<Integer, String> all = new TreeMap<>();
    NodeList entries = entries(Path.of(raster.toString().replace(".tif", ".sld")));
    for (int i = 0; i < entries.getLength(); i++) {
      Element e = (Element) entries.item(i);
      all.put(Integer.parseInt(e.getAttribute("quantity")), e.getAttribute(attribute));
    }
    return all;
  }
}
