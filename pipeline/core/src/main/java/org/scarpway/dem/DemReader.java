package org.scarpway.dem;

import static org.scarpway.dem.GridPlan.shortly;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.geodata.MapCrs;
import org.scarpway.geodata.RasterHeader;
import org.scarpway.geodata.RasterIo;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/**
 * Reads an elevation model: heights in metres on a north-up grid in metres.
 *
 * <p>Cells are copied unchanged where the source's map serves as it is; otherwise see {@link
 * Resampler}. Heights of {@code 16 384 m} and more are counted from a datum (the body's radius or a
 * whole kilometre), subtracted in double precision, so that float32 keeps the millimetre: height =
 * value + {@link Dem#datumM()}, to half a millimetre. No datum shift and no geoid is applied.
 */
public final class DemReader {
  private static final int SURVEY_CELLS = 4_000_000;
  private static final int STRIP_CELLS = 1 << 22;

  private DemReader() {}

  /** The grid that {@link #read} gives, from the headers of the files alone. */
  public static GridSpec spec(DemRequest request, RasterIo io) {
    return plan(open(request, io), request).target();
  }

  private static HeightSource open(DemRequest request, RasterIo io) {
    return HeightSource.open(request.sources(), request.assumeLocalMetres(), io);
  }

  private static GridPlan plan(HeightSource source, DemRequest request) {
    requireBody(source, request.body());
    return GridPlanner.plan(source, request);
  }

  /**
   * @throws UserError for input that cannot give a true map, in one line
   */
  public static Dem read(DemRequest request, RasterIo io, Workers workers, Progress progress) {
    HeightSource source = open(request, io);
    GridPlan plan = plan(source, request);
    HeightSurvey survey = HeightSurvey.of(source, SURVEY_CELLS);
    GridSpec spec = plan.target();
    float[] heights = new float[spec.cells()];
    progress.begin("reading heights", spec.cells());
    if (plan.copy()) {
      copy(source, plan, survey.datumM(), progress, heights);
    } else {
      Resampler.fill(source, plan, survey.datumM(), workers, progress, heights);
    }
    progress.end();
    List<String> warnings = new ArrayList<>(source.notes());
    warnings.addAll(plan.notes());
    FloatGrid grid = new FloatGrid(spec, heights);
    requireHeights(source, grid);
    grid = settleVoids(source, grid, request, workers, warnings);
    warn(source, survey, grid, warnings);
    return new Dem(grid, survey.datumM(), request.body(), warnings);
  }

  private static void requireBody(HeightSource source, Body body) {
    MapCrs crs = source.crs();
    if (!crs.isLocal() && !crs.fits(body)) {
      String guess = crs.body().map(b -> ", that of " + b.name()).orElse("");
      throw UserError.of(
          source.name(),
          "'"
              + crs.name()
              + "' is on a figure of "
              + shortly(crs.semiMajorM() / 1000)
              + " x "
              + shortly(crs.semiMinorM() / 1000)
              + " km"
              + guess,
          "the body of the job: "
              + body.name()
              + ", "
              + shortly(body.semiMajorM() / 1000)
              + " x "
              + shortly(body.semiMinorM() / 1000)
              + " km",
          "correct body in the job, or name another elevation model");
    }
  }

  private static void copy(
      HeightSource source, GridPlan plan, double datumM, Progress progress, float[] out) {
    GridSpec t = plan.target();
    int stripRows = Math.max(1, Math.min(t.rows(), STRIP_CELLS / t.cols()));
    float[] strip = new float[stripRows * t.cols()];
    for (int row = 0; row < t.rows(); row += stripRows) {
      int rows = Math.min(stripRows, t.rows() - row);
      source.read(plan.firstRow() + row, plan.firstCol(), rows, t.cols(), datumM, strip);
      System.arraycopy(strip, 0, out, row * t.cols(), rows * t.cols());
      progress.advance((long) rows * t.cols());
    }
  }

  /** Refuses a grid without heights, and one that holds what cannot be heights. */
  private static void requireHeights(HeightSource source, FloatGrid grid) {
    float least = Float.POSITIVE_INFINITY;
    float most = Float.NEGATIVE_INFINITY;
    for (float v : grid.values()) {
      if (!Float.isNaN(v)) {
        least = Math.min(least, v);
        most = Math.max(most, v);
      }
    }
    if (least > most) {
      throw UserError.of(
          source.name(),
          "no height in any cell of the window",
          "ground with heights",
          "check the file's no-data value, or move dem.window");
    }
    if ((double) most - least > HeightSurvey.MOST_RELIEF_M) {
      throw HeightSurvey.undeclared(
          source, String.format(Locale.ROOT, "%.6g to %.6g m", least, most));
    }
  }

  private static FloatGrid settleVoids(
      HeightSource source,
      FloatGrid grid,
      DemRequest request,
      Workers workers,
      List<String> warnings) {
    GridSpec spec = grid.spec();
    long before = voids(grid);
    if (before == 0) {
      return grid;
    }
    if (request.voids() == VoidRule.FAIL) {
      int first = 0;
      while (!Float.isNaN(grid.values()[first])) {
        first++;
      }
      throw UserError.of(
          source.name(),
          String.format(
              Locale.ROOT,
              "%d of %d cells hold no height, the first at x %.2f, y %.2f",
              before,
              spec.cells(),
              spec.xM(first % spec.cols()),
              spec.yM(first / spec.cols())),
          "none, as dem.voids is fail",
          "fill the elevation model, move dem.window, or set dem.voids to no-go");
    }
    FloatGrid settled = grid;
    if (request.voids() == VoidRule.FILL) {
      settled = GapFill.fill(grid, request.maxFillCells(), workers);
      long filled = before - voids(settled);
      warnings.add(
          String.format(
              Locale.ROOT,
              "%d void cells (%s) in gaps of up to %d cells filled by inverse-distance"
                  + " interpolation across the gap (Shepard 1968): ground that was not measured",
              filled,
              percent(filled, spec.cells()),
              request.maxFillCells()));
    }
    long left = voids(settled);
    if (left > 0) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%d cells (%s) hold no height and are no-go",
              left,
              percent(left, spec.cells())));
    }
    return settled;
  }

  private static long voids(FloatGrid grid) {
    long n = 0;
    for (float v : grid.values()) {
      n += Float.isNaN(v) ? 1 : 0;
    }
    return n;
  }

  static String percent(long part, long whole) {
    double share = 100.0 * part / whole;
    return share > 0 && share < 0.01
        ? "below 0.01 %"
        : String.format(Locale.ROOT, "%.2f %%", share);
  }

  private static void warn(
      HeightSource source, HeightSurvey survey, FloatGrid grid, List<String> warnings) {
    warnings.addAll(heightWarnings(source, survey, grid.spec().cellM()));
    float least = Float.POSITIVE_INFINITY;
    float most = Float.NEGATIVE_INFINITY;
    for (float v : grid.values()) {
      if (!Float.isNaN(v)) {
        least = Math.min(least, v);
        most = Math.max(most, v);
      }
    }
    if (most - least < 0.01) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "relief of only %.4f m: the ground is flat in this model",
              most - least));
    }
    if (grid.spec().cellM() > 20) {
      warnings.add(
          "cells of "
              + shortly(grid.spec().cellM())
              + " m: ground smaller than about "
              + shortly(2 * grid.spec().cellM())
              + " m does not show, slopes are smoothed over that length");
    }
  }

  /** What the stored heights themselves lack. */
  static List<String> heightWarnings(HeightSource source, HeightSurvey survey, double cellM) {
    List<String> warnings = new ArrayList<>();
    RasterHeader h = source.parts().get(0).header();
    double unit = source.parts().get(0).unit().metres();
    boolean integers = h.dataType().contains("Int") || "Byte".equals(h.dataType());
    double step = integers ? Math.abs(h.scale()) * unit : survey.wholeMetres() ? 1 : 0;
    double lost = survey.lostStepM(h);
    if (step > 0.02 * cellM || step >= 1) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "heights come in steps of %s m: slopes between neighbouring cells come in steps of"
                  + " about %.2f deg",
              shortly(step),
              Math.toDegrees(Math.atan(step / (2 * cellM)))));
    }
    if (lost > 0) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "the file stores heights of up to %.0f m as Float32, in steps of %s m: detail below"
                  + " that was lost when it was written",
              Math.max(Math.abs(survey.leastM()), Math.abs(survey.mostM())),
              shortly(lost)));
    }
    MapCrs crs = source.crs();
    if (survey.datumM() != 0
        && !crs.isLocal()
        && survey.datumM() == crs.semiMajorM()
        && crs.semiMajorM() > crs.semiMinorM()) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "heights are counted from the centre of a flattened body: they hold the flattening,"
                  + " a tilt to the poles of up to %.2f deg",
              Math.toDegrees((crs.semiMajorM() - crs.semiMinorM()) / crs.semiMajorM())));
    }
    return warnings;
  }
}
