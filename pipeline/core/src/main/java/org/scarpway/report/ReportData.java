package org.scarpway.report;

import java.util.List;
import java.util.Map;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.site.LandingEllipse;
import org.scarpway.terrain.OptionalDerivatives;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.Mobility;

/**
 * Everything a report shows, finished and on one grid. It holds no time of day, so the same results
 * give the same page byte for byte.
 *
 * @param hazard null where the job computed none
 * @param sites tables of the site comparison, best first; empty where the job compares none
 * @param warnings of the run as a whole; those of the DEM, reach and corridors are added by the
 *     report
 * @param sources method and publication for everything that was computed
 * @param atPlaces what vehicles meet at places of the job
 * @param lonLat from the coordinates of the grid; may answer null
 * @param more what the job asks of the ground on top of terrain
 * @param unanswered why a question has no answer, by the name of its stage, such as reach/far
 */
public record ReportData(
    Facts facts,
    Dem dem,
    Terrain terrain,
    Hazard hazard,
    List<Mobility> mobility,
    List<ReachResult> reaches,
    List<CorridorResult> corridors,
    List<Place> places,
    List<Table> sites,
    List<String> warnings,
    List<Source> sources,
    List<Setting> settings,
    LonLat lonLat,
    List<AtPlace> atPlaces,
    OptionalDerivatives more,
    Map<String, String> unanswered) {

  /** Without a look at the places one by one. */
  public ReportData(
      Facts facts,
      Dem dem,
      Terrain terrain,
      Hazard hazard,
      List<Mobility> mobility,
      List<ReachResult> reaches,
      List<CorridorResult> corridors,
      List<Place> places,
      List<Table> sites,
      List<String> warnings,
      List<Source> sources,
      List<Setting> settings,
      LonLat lonLat) {
    this(
        facts,
        dem,
        terrain,
        hazard,
        mobility,
        reaches,
        corridors,
        places,
        sites,
        warnings,
        sources,
        settings,
        lonLat,
        List.of(),
        OptionalDerivatives.NONE,
        Map.of());
  }

  public ReportData {
    mobility = List.copyOf(mobility);
    reaches = List.copyOf(reaches);
    corridors = List.copyOf(corridors);
    places = List.copyOf(places);
    sites = List.copyOf(sites);
    warnings = List.copyOf(warnings);
    sources = List.copyOf(sources);
    settings = List.copyOf(settings);
    atPlaces = List.copyOf(atPlaces);
  }

  /**
   * What identifies the run.
   *
   * @param inputs names of the input files with their digests, one line each
   * @param command that repeats the run
   * @param verticalSigmaM one-sigma height error of the DEM (m), null if unknown
   * @param smallestObstacle how obstacles below the cell size were treated, one sentence, or empty
   */
  public record Facts(
      String job,
      String crsName,
      String version,
      String jobDigest,
      String command,
      List<String> inputs,
      Double verticalSigmaM,
      String smallestObstacle) {
    public Facts {
      inputs = List.copyOf(inputs);
    }
  }

  /**
   * A named point in the coordinates of the grid.
   *
   * @param ellipse where touchdowns fall; null for a place that is not compared as a landing site
   */
  public record Place(String name, double xM, double yM, Kind kind, LandingEllipse ellipse) {
    public Place(String name, double xM, double yM, Kind kind) {
      this(name, xM, yM, kind, null);
    }
  }

  /** One vehicle at one place. */
  public record AtPlace(String place, String vehicle, CellMobility cell) {}

  /** What a place is to the crew; its symbol on the maps follows. */
  public enum Kind {
    BASE("base"),
    TARGET("target"),
    CANDIDATE("candidate site"),
    FOUND("place found by the search");

    private final String label;

    Kind(String label) {
      this.label = label;
    }

    public String label() {
      return label;
    }
  }

  /**
   * A finished table of text cells.
   *
   * @param summary the answer in a sentence, repeated at the head of the report; may be empty
   * @param header one entry per column, with the unit
   * @param marks what a map beside the table shows; null where there is none
   */
  public record Table(
      String title, String summary, List<String> header, List<List<String>> rows, Marks marks) {

    /** Without a map. */
    public Table(String title, String summary, List<String> header, List<List<String>> rows) {
      this(title, summary, header, rows, null);
    }

    public Table {
      header = List.copyOf(header);
      rows = rows.stream().map(List::copyOf).toList();
    }
  }

  /** Places on the map of a vehicle's classes. */
  public record Marks(String vehicle, List<Place> places) {
    public Marks {
      places = List.copyOf(places);
    }
  }

  /** A method in use and where it is published. */
  public record Source(String method, String publication) {}

  /** One setting in effect and where its value comes from. */
  public record Setting(String key, String value, String origin) {}
}
