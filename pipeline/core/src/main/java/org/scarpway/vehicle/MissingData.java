package org.scarpway.vehicle;

import java.util.List;
import java.util.Locale;

/** Notes about ground on which a layer that the job names has no data. */
public final class MissingData {
  private static final String ASSUMED =
      ": assumed, the coverage that hazard.rock_no_data states counts there.";

  /** Share of all ground above which the loss to missing heights is always told. */
  private static final double MUCH = 0.05;

  private MissingData() {}

  /** True if a note reports verdicts that rest on assumed rather than measured rocks. */
  public static boolean tellsAssumed(String note) {
    return note.endsWith(ASSUMED);
  }

  static void tell(SoilLimits soils, MobilityCounts counts, List<String> notes) {
    long all = counts.judged() + counts.missing();
    long heights = counts.missing(Limit.VOID);
    if (counts.voids() > 0 && (heights > 2 * counts.voids() || heights > MUCH * all)) {
      notes.add(
          "No verdict on "
              + share(heights, all)
              + " for want of heights: "
              + share(counts.voids(), all)
              + " hold none, the others lie within two cells of such, have one under the vehicle, or"
              + " are the rim. dem.voids: {fill: {max_gap_cells: 3, sure: true}} fills narrow gaps,"
              + " but then a drop or a wall in a gap that nobody measured is taken for even ground.");
    }
    long rocks = counts.missing(Limit.ROCK_DATA);
    if (rocks > 0) {
      notes.add(
          "Rocks are not known on "
              + share(rocks, all)
              + ": no verdict there. hazard.rock_no_data can state the most that the ground may"
              + " have.");
    }
    if (counts.rocksAssumed() > 0) {
      notes.add("Rocks are not known on " + share(counts.rocksAssumed(), all) + ASSUMED);
    }
    long soil = counts.missing(Limit.SOIL_DATA);
    if (soil > 0) {
      notes.add(
          "The soil is not known on "
              + share(soil, all)
              + ": no verdict there. soils.no_data: worst counts the worst of the job's soils.");
    }
    if (soils.worstIfUnknown && counts.onSoil(soils.unknown()) > 0) {
      notes.add(
          "The soil is not known on "
              + share(counts.onSoil(soils.unknown()), all)
              + ": the worst of the job's soils counts there (soils.no_data).");
    }
    if (soils.several() > 0 && counts.onSoil(soils.several()) > 0) {
      notes.add(
          "Soils meet within "
              + share(counts.onSoil(soils.several()), all)
              + ": the worst of the job's soils counts there.");
    }
  }

  private static String share(long cells, long all) {
    return String.format(Locale.ROOT, "%d cells (%.1f %%)", cells, 100.0 * cells / all);
  }
}
