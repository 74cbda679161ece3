package org.scarpway.sample;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.geodata.vector.GeoPackage;
import org.scarpway.geodata.vector.LayerData;
import org.scarpway.grid.GridSpec;

/**
 * The demo scenario, entirely invented: the Orrel bench, 6 x 6 km of lunar-like ground near a south
 * pole at 5 m, crossed by a scarp with two gaps. The generated files are the same on every machine.
 */
public final class DemoScenario {
  public static final String HEIGHTS = "orrel-bench.tif";
  public static final String ROCKS = "rock-coverage.tif";
  public static final String KEEP_OUT = "keep-out.gpkg";
  public static final String TARGETS = "targets.csv";
  public static final String README = "README.md";

  private static final double WEST_M = 71_000;
  private static final double NORTH_M = 99_000;

  /** Polar stereographic on the lunar sphere, true to scale at the pole. */
  private static final String CRS_NAME = "Moon sphere, south polar stereographic";

  private static final String CRS_WKT =
      "PROJCS[\""
          + CRS_NAME
          + "\",GEOGCS[\"Moon sphere\",DATUM[\"Moon sphere\",SPHEROID[\"Moon sphere\",1737400,0]],"
          + "PRIMEM[\"Reference meridian\",0],UNIT[\"degree\",0.0174532925199433]],"
          + "PROJECTION[\"Polar_Stereographic\"],PARAMETER[\"latitude_of_origin\",-90],"
          + "PARAMETER[\"central_meridian\",0],PARAMETER[\"scale_factor\",1],"
          + "PARAMETER[\"false_easting\",0],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";

  private DemoScenario() {}

  /** The grid of both rasters. */
  public static GridSpec spec() {
    return new GridSpec(
        DemoGround.CELLS,
        DemoGround.CELLS,
        DemoGround.CELL_M,
        DemoGround.CELL_M,
        WEST_M,
        NORTH_M,
        CRS_WKT);
  }

  /**
   * Writes every file of the scenario into a folder, which is created if missing; files of the same
   * names are replaced.
   *
   * @return the files written
   */
  public static List<Path> write(Path dir, RasterIo io) {
    DemoGround ground = new DemoGround(spec());
    Path heights = dir.resolve(HEIGHTS);
    Path rocks = dir.resolve(ROCKS);
    AtomicFileWrite.write(dir.resolve(README), part -> Files.write(part, readme()));
    io.write(
        heights,
        ground.heights(),
        BandInfo.of("invented heights above the sphere of 1737400 m", "m"));
    io.write(
        rocks, ground.rockCoverage(), BandInfo.of("invented share of the ground under rocks", "1"));
    writeKeepOut(dir.resolve(KEEP_OUT));
    writeTargets(dir.resolve(TARGETS));
    return List.of(
        heights, rocks, dir.resolve(KEEP_OUT), dir.resolve(TARGETS), dir.resolve(README));
  }

  /** Returns name and coordinates (m) of the two base candidates. */
  public static Map<String, double[]> bases() {
    Map<String, double[]> bases = new LinkedHashMap<>();
    DemoPlaces.BASES.forEach(b -> bases.put(b.name(), new double[] {x(b.uM()), y(b.vM())}));
    return bases;
  }

  private static double x(double uM) {
    return WEST_M + uM;
  }

  private static double y(double vM) {
    return NORTH_M - DemoGround.SIDE_M + vM;
  }

  private static void writeKeepOut(Path file) {
    Coordinate[] ring = new Coordinate[DemoPlaces.KEEP_OUT.length];
    for (int i = 0; i < ring.length; i++) {
      ring[i] = new Coordinate(x(DemoPlaces.KEEP_OUT[i][0]), y(DemoPlaces.KEEP_OUT[i][1]));
    }
    Feature stage =
        new Feature(new GeometryFactory().createPolygon(ring), Map.of("name", "old landing stage"));
    GeoPackage.write(
        file, CRS_WKT, CRS_NAME, List.of(new LayerData("keep_out", "POLYGON", List.of(stage))));
  }

  private static void writeTargets(Path file) {
    CsvTable.write(
        file,
        List.of(
            Column.text("name", DemoPlaces.Stop::name),
            Column.number("x", 0, s -> x(s.uM())),
            Column.number("y", 0, s -> y(s.vM())),
            Column.number("weight", 0, DemoPlaces.Stop::weight),
            Column.whole("stay_min", DemoPlaces.Stop::stayMin),
            Column.whole("walk_count", DemoPlaces.Stop::walkCount)),
        DemoPlaces.STOPS);
  }

  private static byte[] readme() throws IOException {
    try (InputStream in = DemoScenario.class.getResourceAsStream("/sample/README.md")) {
      return in.readAllBytes();
    }
  }
}
