package org.scarpway.dem;

import static org.scarpway.dem.GridPlan.shortly;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;

/**
 * Reads an elevation model: heights in metres on a north-up grid in metres.
 *
 * <p>Cells are copied unchanged if the source's own map can be used; otherwise they are resampled,
 * see {@link Resampler}. Heights of {@code 16 384 m} and more are stored relative to a datum (the
 * body's radius or a whole kilometre) that is subtracted in double precision, so that float32
 * resolves the millimetre: height = value + {@link Dem#datumM()}, to half a millimetre. The map
 * stays on the file's own datum, and no geoid is applied.
 */
public final class DemReader {
  /**
   * Rounding step of heights (m) that is reported whatever the cell size: a third of the step a
   * wheel climbs. Own choice.
   */
  private static final double NOTED_M = 0.1;

  private DemReader() {}

  /** Returns the grid of {@link DemRows} from the headers of the files alone. */
  public static GridSpec spec(DemRequest request, RasterIo io) {
    return plan(open(request, io), request).target();
  }

  /**
   * Returns the transformation between coordinates as users write them and the grid of {@link
   * DemRows}.
   */
  public static PlaceFrame frame(DemRequest request, RasterIo io) {
    HeightSource source = open(request, io);
    return frame(source, plan(source, request).target());
  }

  static PlaceFrame frame(HeightSource source, GridSpec target) {
    double midX = GridPlan.x(source.grid(), source.cols() / 2.0, source.rows() / 2.0);
    return new PlaceFrame(source.crs(), midX, target);
  }

  static HeightSource open(DemRequest request, RasterIo io) {
    return HeightSource.open(request.sources(), request.assumeLocalMetres(), io);
  }

  static GridPlan plan(HeightSource source, DemRequest request) {
    requireBody(source, request.body());
    return GridPlanner.plan(source, request);
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

  /** Warnings and range of heights (m), from all cells. */
  record Findings(List<String> warnings, double leastM, double mostM) {}

  /**
   * Refuses a grid without heights, values that cannot be heights, and voids where the job allows
   * none.
   */
  static Findings conclude(
      HeightSource source,
      GridPlan plan,
      HeightSurvey survey,
      DemRequest request,
      HeightTally tally) {
    if (tally.least() > tally.most()) {
      throw UserError.of(
          source.name(),
          "no height in any cell of the window",
          "ground with heights",
          "check the file's no-data value, or move dem.window");
    }
    if ((double) tally.most() - tally.least() > HeightSurvey.MOST_RELIEF_M) {
      throw HeightSurvey.undeclared(
          source, String.format(Locale.ROOT, "%.6g to %.6g m", tally.least(), tally.most()));
    }
    List<String> warnings = new ArrayList<>(source.notes());
    warnings.addAll(plan.notes());
    String datum = plan.crs().isLocal() ? "" : WorldMap.of(plan.target()).shift().note();
    if (!datum.isEmpty()) {
      warnings.add(datum);
    }
    if (tally.voids() > 0) {
      settleVoids(source, request, tally, warnings);
    }
    warn(source, survey, tally, warnings);
    return new Findings(List.copyOf(warnings), tally.least(), tally.most());
  }

  private static void settleVoids(
      HeightSource source, DemRequest request, HeightTally tally, List<String> warnings) {
    GridSpec spec = tally.spec();
    if (request.voids() == VoidRule.FAIL) {
      throw UserError.of(
          source.name(),
          String.format(
              Locale.ROOT,
              "%d of %d cells hold no height, the first at x %.2f, y %.2f",
              tally.voids(),
              spec.cells(),
              spec.xM(tally.firstVoidCol()),
              spec.yM(tally.firstVoidRow())),
          "none, as dem.voids is fail",
          "fill the elevation model, move dem.window, or set dem.voids to no-go");
    }
    if (request.voids() == VoidRule.FILL) {
      long filled = tally.voids() - tally.left();
      warnings.add(
          String.format(
              Locale.ROOT,
              "%d void cells (%s) in gaps of up to %d cells filled by inverse-distance"
                  + " interpolation across the gap (Shepard 1968): ground that was not measured",
              filled,
              percent(filled, spec.cells()),
              request.maxFillCells()));
    }
    if (request.voids() == VoidRule.NO_GO && request.maxFillCells() > 0) {
      warnings.add(
          "Gaps of up to "
              + request.maxFillCells()
              + " cells are not filled: nobody measured such ground, so it has no verdict unless"
              + " the job takes filled heights as measured (dem.voids.fill.sure: true)");
    }
    if (tally.left() > 0) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%d cells (%s) hold no height: there is no verdict there, nor within two cells of them",
              tally.left(),
              percent(tally.left(), spec.cells())));
    }
  }

  static String percent(long part, long whole) {
    double share = 100.0 * part / whole;
    if (part > 0 && share < 0.01) {
      return "below 0.01 %";
    }
    return part < whole && share > 99.99
        ? "above 99.99 %"
        : String.format(Locale.ROOT, "%.2f %%", share);
  }

  private static void warn(
      HeightSource source, HeightSurvey survey, HeightTally tally, List<String> warnings) {
    double cellM = tally.spec().cellM();
    warnings.addAll(heightWarnings(source, survey, cellM));
    float reliefM = tally.most() - tally.least();
    if (reliefM < 0.01) {
      warnings.add(
          String.format(
              Locale.ROOT, "relief of only %.4f m: the ground is flat in this model", reliefM));
    }
    if (cellM > 20) {
      warnings.add(
          "cells of "
              + Digits.of(cellM)
              + " m: ground smaller than about "
              + Digits.of(2 * cellM)
              + " m does not show, slopes are smoothed over that length");
    }
  }

  /** Warnings about the precision of the stored heights. */
  static List<String> heightWarnings(HeightSource source, HeightSurvey survey, double cellM) {
    List<String> warnings = new ArrayList<>();
    RasterHeader h = source.parts().get(0).header();
    double unit = source.parts().get(0).unit().metres();
    boolean integers = h.dataType().contains("Int") || "Byte".equals(h.dataType());
    double step = Math.max(integers ? Math.abs(h.scale()) * unit : 0, survey.quantumM());
    double lost = survey.lostStepM(h);
    if (step > 0.02 * cellM || step >= NOTED_M) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "heights come in steps of %s m: slopes between neighbouring cells come in steps of"
                  + " about %.2f deg, steps of that height may not be there and lower ones do not"
                  + " show; use heights with more digits, or coarser cells",
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
