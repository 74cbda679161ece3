package org.scarpway.report;

import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.reach.question.ReplanResult;

/**
 * The data of the sheet for a crew underway, on the part of the ground that it shows. It contains
 * no time of day, so the same results give the same page byte for byte.
 *
 * @param crsName name of the reference system of the map
 * @param jobDigest digest of the job file
 * @param plan words on where the plan is from
 * @param limitsNotResolved names of limits of the vehicle that the cells do not resolve, or empty
 * @param heightM elevation (m), NaN without data
 * @param gradEast rise over run towards the east
 * @param gradNorth rise over run towards the north
 * @param closed 1 where the vehicle cannot enter a cell on any heading, or nothing is known of it
 * @param cellM longer side of a cell of the ground that was computed (m)
 * @param lost areas that may no longer be entered, null for none
 * @param lostWords what is said of each of them, in their order
 * @param places bases and targets of the job
 * @param placeText tells places in the elevation model's own system
 * @param command that repeats the answer
 */
public record ReplanSheetData(
    String job,
    String crsName,
    String version,
    String jobDigest,
    String plan,
    String limitsNotResolved,
    FloatGrid heightM,
    FloatGrid gradEast,
    FloatGrid gradNorth,
    ByteGrid closed,
    double cellM,
    Geometry lost,
    List<String> lostWords,
    List<ReportData.Place> places,
    LonLat lonLat,
    PlaceText placeText,
    String command,
    ReplanResult answer,
    List<String> warnings) {
  public ReplanSheetData {
    heightM.spec().requireCellsOf(gradEast.spec(), gradNorth.spec(), closed.spec());
    places = List.copyOf(places);
    lostWords = List.copyOf(lostWords);
    warnings = List.copyOf(warnings);
  }
}
