package org.scarpway.dem;

import static org.scarpway.dem.GridPlan.shortly;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.scarpway.geodata.crs.CrsWriter;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.Body;
import org.scarpway.stage.Digits;

/**
 * Metadata and statistics of one elevation file, computed with bounded work: of a file of more than
 * 16 million cells a sample of rows spread evenly over it is read; if the sample holds no height,
 * the whole file is.
 *
 * @param readBy name of the library that read the file
 * @param crsName name of the coordinate reference system; empty if the file names none
 * @param degrees true if the file counts in degrees
 * @param cellXM east-west size (m) of a cell at the centre of the file; NaN if the unit is unknown
 * @param centreLonDeg longitude of the centre, WGS 84 on Earth; NaN if the file names no body, or a
 *     datum that cannot be transformed
 * @param extent how far the file reaches
 * @param seenCells number of cells from which the share of voids and the range were computed
 * @param leastM lowest height seen (m), NaN if every cell seen is void
 */
public record DemProbe(
    Path file,
    String format,
    String readBy,
    int rows,
    int cols,
    int bands,
    String dataType,
    Double nodata,
    double scale,
    double offset,
    String heightUnit,
    String crsName,
    String crsText,
    double semiMajorM,
    double semiMinorM,
    boolean degrees,
    Optional<Body> body,
    double cellXM,
    double cellYM,
    double centreX,
    double centreY,
    double centreLonDeg,
    double centreLatDeg,
    Extent extent,
    long seenCells,
    long voidCells,
    double leastM,
    double mostM,
    List<String> warnings) {
  private static final int PROBE_CELLS = 16_000_000;

  /**
   * How far a file reaches, by the outer edges of its cells.
   *
   * @param widthM length along its middle row (m), NaN if the unit is unknown
   * @param heightM length along its middle column (m), NaN if the unit is unknown
   * @param leastX least x of its corners, in the file's own system and unit
   * @param leastY least y of its corners
   * @param mostX largest x of its corners
   * @param mostY largest y of its corners
   */
  public record Extent(
      double widthM, double heightM, double leastX, double leastY, double mostX, double mostY) {
    static Extent of(Affine g, int rows, int cols, double[] cellM) {
      double[] x = {
        GridPlan.x(g, 0, 0),
        GridPlan.x(g, cols, 0),
        GridPlan.x(g, 0, rows),
        GridPlan.x(g, cols, rows)
      };
      double[] y = {
        GridPlan.y(g, 0, 0),
        GridPlan.y(g, cols, 0),
        GridPlan.y(g, 0, rows),
        GridPlan.y(g, cols, rows)
      };
      return new Extent(
          cols * cellM[0],
          rows * cellM[1],
          Arrays.stream(x).min().getAsDouble(),
          Arrays.stream(y).min().getAsDouble(),
          Arrays.stream(x).max().getAsDouble(),
          Arrays.stream(y).max().getAsDouble());
    }
  }

  public DemProbe {
    warnings = List.copyOf(warnings);
  }

  /**
   * @throws org.scarpway.stage.UserError for a file that cannot be read, or holds what cannot be
   *     heights
   */
  public static DemProbe probe(Path file, RasterIo io) {
    RasterHeader h = io.header(file);
    HeightSource source = HeightSource.open(List.of(file), true, io);
    MapCrs crs = source.crs();
    HeightSurvey s = HeightSurvey.of(source, PROBE_CELLS);
    Affine g = source.grid();
    double x = GridPlan.x(g, source.cols() / 2.0, source.rows() / 2.0);
    double y = GridPlan.y(g, source.cols() / 2.0, source.rows() / 2.0);
    WorldMap world = WorldMap.of(crs, x, y);
    double[] lonLat = world.known() ? world.toLonLat(x, y) : new double[] {Double.NaN, Double.NaN};
    double[] cell = cellM(crs, g, crs.isLocal() ? Double.NaN : crs.toLonLat(x, y)[1]);
    boolean unnamed = h.crsWkt().isBlank();
    boolean plane = crs.isLocal();
    List<String> warnings = new ArrayList<>();
    if (plane) {
      warnings.add(
          (unnamed ? "no coordinate reference system" : "a system that is tied to no body")
              + ": run refuses the file unless dem.units: metres takes it as a local plane");
    }
    for (String note : source.notes()) {
      if (!plane || !note.contains("coordinate reference system")) {
        warnings.add(note);
      }
    }
    if (!plane && !world.shift().note().isEmpty()) {
      warnings.add(world.shift().note());
    }
    if (crs.isGeographic()) {
      warnings.add(
          "degrees: run carries the heights over to a local transverse Mercator map in metres");
    }
    if (g.rotated()) {
      warnings.add("rotated: run carries the heights over to a north-up grid");
    }
    if (source.rows() < 3 || source.cols() < 3) {
      warnings.add("fewer than 3 x 3 cells: run refuses the file");
    }
    boolean empty = s.isEmpty();
    if (empty) {
      warnings.add("no height in any cell: run refuses the file");
    }
    warnings.addAll(DemReader.heightWarnings(source, s, Math.sqrt(cell[0] * cell[1])));
    return new DemProbe(
        file,
        h.format(),
        io.name(),
        h.rows(),
        h.cols(),
        h.bands(),
        h.dataType(),
        h.nodata(),
        h.scale(),
        h.offset(),
        h.verticalUnit(),
        unnamed ? "" : crs.name(),
        CrsWriter.projString(crs),
        crs.semiMajorM(),
        crs.semiMinorM(),
        crs.isGeographic(),
        crs.body(),
        cell[0],
        cell[1],
        x,
        y,
        lonLat[0],
        lonLat[1],
        Extent.of(g, source.rows(), source.cols(), cell),
        s.cells(),
        s.voids(),
        empty ? Double.NaN : s.leastM(),
        empty ? Double.NaN : s.mostM(),
        warnings);
  }

  private static double[] cellM(MapCrs crs, Affine g, double latDeg) {
    double alongCol = Math.sqrt(g.xCol() * g.xCol() + g.yCol() * g.yCol());
    double alongRow = Math.sqrt(g.xRow() * g.xRow() + g.yRow() * g.yRow());
    if (crs.isGeographic()) {
      double degrees = 360 / crs.turnX();
      return new double[] {
        alongCol * degrees * crs.metresPerDegreeEast(latDeg),
        alongRow * degrees * crs.metresPerDegreeNorth(latDeg)
      };
    }
    return new double[] {alongCol * crs.metresPerUnit(), alongRow * crs.metresPerUnit()};
  }

  /** The probe as text, one fact per line. */
  public List<String> lines() {
    List<String> l = new ArrayList<>();
    l.add("file        " + file + " (" + format + ", read by " + readBy + ")");
    l.add(
        "size        "
            + cols
            + " columns x "
            + rows
            + " rows, "
            + bands
            + (bands == 1 ? " band" : " bands")
            + " of "
            + dataType);
    l.add("map         " + (crsName.isEmpty() ? "not named" : crsName));
    if (!crsText.isEmpty()) {
      l.add("            " + crsText);
      l.add(
          "body        "
              + body.map(Body::name).orElse("not a known one")
              + ", figure "
              + shortly(semiMajorM / 1000)
              + " x "
              + shortly(semiMinorM / 1000)
              + " km");
    }
    l.add("cell        " + shortly(cellXM) + " x " + shortly(cellYM) + " m (at the centre)");
    l.add(
        "extent      "
            + length(extent.widthM)
            + " x "
            + length(extent.heightM)
            + ": x "
            + text(extent.leastX)
            + " to "
            + text(extent.mostX)
            + ", y "
            + text(extent.leastY)
            + " to "
            + text(extent.mostY));
    l.add(
        "centre      x "
            + text(centreX)
            + ", y "
            + text(centreY)
            + (Double.isNaN(centreLonDeg)
                ? ""
                : ", lon " + degrees(centreLonDeg) + ", lat " + degrees(centreLatDeg) + " deg"));
    l.add(
        "heights     "
            + (Double.isNaN(leastM) ? "none" : text(leastM) + " to " + text(mostM) + " m")
            + " (unit "
            + (heightUnit.isEmpty() ? "not named, metres assumed" : heightUnit)
            + (scale == 1 && offset == 0
                ? ""
                : ", scale " + shortly(scale) + ", offset " + shortly(offset))
            + ")");
    l.add(
        "voids       "
            + voids()
            + " (no-data value "
            + (nodata == null ? "not named" : nodata.toString())
            + ")");
    for (String w : warnings) {
      l.add("warning     " + w);
    }
    return l;
  }

  /** The share of voids, with a note if only a sample was read, which can miss some. */
  private String voids() {
    if (seenCells == (long) rows * cols) {
      return DemReader.percent(voidCells, seenCells) + " of " + seenCells + " cells";
    }
    String share = voidCells == 0 ? "none" : DemReader.percent(voidCells, seenCells);
    return share + " in a sample of " + seenCells + " cells; run looks at all";
  }

  private static String length(double m) {
    return m < 1000 ? Digits.of(m) + " m" : Digits.of(m / 1000) + " km";
  }

  private static String text(double v) {
    return String.format(Locale.ROOT, "%.2f", v);
  }

  private static String degrees(double v) {
    return String.format(Locale.ROOT, "%.6f", v);
  }
}
