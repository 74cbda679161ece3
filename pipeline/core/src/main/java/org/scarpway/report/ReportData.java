package org.scarpway.report;

import java.util.List;
import java.util.Map;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.hazard.ShownHazard;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.site.LandingEllipse;
import org.scarpway.terrain.OptionalDerivatives;
import org.scarpway.terrain.ShownTerrain;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.ShownMobility;

/**
 * All data of a report, finished and on one grid. It contains no time of day, so the same results
 * give the same page byte for byte.
 *
 * @param hazard null if the job computed none
 * @param light light and contact over a window of time, as far as the job asks for them
 * @param sites tables of the site comparison, best first; empty if the job compares none
 * @param warnings of the run as a whole; those of the DEM, reach and corridors are added by the
 *     report
 * @param sources method and publication for everything that was computed
 * @param atPlaces mobility of each vehicle at places of the job
 * @param lonLat maps grid coordinates to longitude and latitude; may return null
 * @param more the further derivatives that the job asks for beyond terrain
 * @param reachCells further rasters of the reach questions, read when they are drawn
 * @param unanswered why a question has no answer, by the name of its stage, such as reach/far
 * @param keys digest of everything that the products of a stage depend on, by its name; empty if
 *     nothing is to be kept between runs
 * @param keepOuts keep-out areas as the files of the job have them, without margin
 * @param maxWalkKm longest walk home by the rules of a question, by its name; none where walks are
 *     not limited in length
 */
public record ReportData(
    Facts facts,
    Dem dem,
    ShownTerrain terrain,
    ShownHazard hazard,
    List<ShownMobility> mobility,
    List<ReachResult> reaches,
    List<CorridorResult> corridors,
    List<SortieData> sorties,
    List<LightData> light,
    List<Place> places,
    List<Table> sites,
    List<String> warnings,
    List<Source> sources,
    List<Setting> settings,
    LonLat lonLat,
    List<AtPlace> atPlaces,
    OptionalDerivatives more,
    ReachCells reachCells,
    Map<String, String> unanswered,
    Map<String, String> keys,
    KeepOutAreas keepOuts,
    Map<String, Double> maxWalkKm) {

  /** Reads a raster of a reach question on the cells that the report shows. */
  public interface ReachCells {
    /** Least time from the base (s). */
    String OUT_TIME = "time_s";

    /** Least energy from the base (J). */
    String OUT_ENERGY = "energy_j";

    /** Energy along the quickest way from the base (J). */
    String WAY_ENERGY = "way_energy_j";

    /** Energy along the quickest way home (J), where the vehicle drives home. */
    String WAY_HOME_ENERGY = "way_home_energy_j";

    /** Least time home, on foot by the rule walk-back (s). */
    String HOME_TIME = "home_time_s";

    /** Time from a stop until everybody is home (s); only by some home rules. */
    String STOP_HOME = "stop_home_s";

    /** Next cell of the quickest way from the base, followed backwards. */
    String OUT_STEP = "out_step";

    /** Next cell of the quickest way home, where the vehicle drives home. */
    String HOME_STEP = "home_step";

    /** Next cell of the walk home, by walk-back. */
    String WALK_STEP = "walk_step";

    /** Next cell of the way of a vehicle that fetches the crew, followed backwards. */
    String FETCH_STEP = "fetch_step";

    /** Next cell of that vehicle's ride home. */
    String RIDE_STEP = "ride_step";

    /**
     * @param reach name of the question
     * @param raster name of the raster
     * @return null if the question has no such raster
     */
    FloatGrid floats(String reach, String raster);

    /**
     * @param reach name of the question
     * @param raster name of a raster of steps
     * @return null if the question has no such raster or the report shows but some of its cells
     */
    ByteGrid steps(String reach, String raster);
  }

  public ReportData {
    mobility = List.copyOf(mobility);
    reaches = List.copyOf(reaches);
    corridors = List.copyOf(corridors);
    sorties = List.copyOf(sorties);
    light = List.copyOf(light);
    places = List.copyOf(places);
    sites = List.copyOf(sites);
    warnings = List.copyOf(warnings);
    sources = List.copyOf(sources);
    settings = List.copyOf(settings);
    atPlaces = List.copyOf(atPlaces);
    maxWalkKm = Map.copyOf(maxWalkKm);
  }

  /**
   * The facts that identify the run.
   *
   * @param inputs names of the input files with their digests, one line each
   * @param command that repeats the run
   * @param verticalSigmaM one-sigma height error of the DEM (m), null if unknown
   * @param maxMb size that the page should not exceed (MB, of one million characters)
   * @param soilsByPlace true if the job gives soils besides those of vehicle files
   * @param smallestObstacle how obstacles below the cell size were treated, one sentence, or empty
   * @param reconnaissance true if tables name the classes of military reconnaissance
   */
  public record Facts(
      String job,
      String crsName,
      String version,
      String jobDigest,
      String command,
      List<String> inputs,
      Double verticalSigmaM,
      String smallestObstacle,
      double maxMb,
      boolean soilsByPlace,
      boolean reconnaissance) {
    public Facts {
      inputs = List.copyOf(inputs);
    }
  }

  /**
   * A named point in the coordinates of the grid (m).
   *
   * @param ellipse landing ellipse, the area in which touchdowns fall; null for a place that is not
   *     compared as a landing site
   */
  public record Place(String name, double xM, double yM, Kind kind, LandingEllipse ellipse) {
    public Place(String name, double xM, double yM, Kind kind) {
      this(name, xM, yM, kind, null);
    }
  }

  /** Mobility of one vehicle at one place. */
  public record AtPlace(String place, String vehicle, CellMobility cell) {}

  /** The role of a place for the crew, which determines its symbol on the maps. */
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
   * @param marks the places shown on a map beside the table; null if there is no map
   * @param contributions of the figures to a ranking, drawn beside the table; null for none
   */
  public record Table(
      String title,
      String summary,
      List<String> header,
      List<List<String>> rows,
      Marks marks,
      Contributions contributions) {

    /** A table without a map or a drawing. */
    public Table(String title, String summary, List<String> header, List<List<String>> rows) {
      this(title, summary, header, rows, null, null);
    }

    public Table {
      header = List.copyOf(header);
      rows = rows.stream().map(List::copyOf).toList();
    }
  }

  /**
   * What each weighted figure adds to the score of each place in a ranking.
   *
   * @param figures names of the figures
   * @param most what each figure adds to the score of the place that is best in it
   * @param sites the places, best first
   */
  public record Contributions(List<String> figures, List<Double> most, List<Site> sites) {
    public Contributions {
      figures = List.copyOf(figures);
      most = List.copyOf(most);
      sites = List.copyOf(sites);
    }
  }

  /**
   * A place in a ranking.
   *
   * @param adds what each figure adds to its score, in the order of the figures
   */
  public record Site(String name, double score, List<Double> adds) {
    public Site {
      adds = List.copyOf(adds);
    }
  }

  /** Places shown on the map of a vehicle's classes. */
  public record Marks(String vehicle, List<Place> places) {
    public Marks {
      places = List.copyOf(places);
    }
  }

  /** A method in use and its publication. */
  public record Source(String method, String publication) {}

  /** One setting in effect and the origin of its value. */
  public record Setting(String key, String value, String origin) {}
}
