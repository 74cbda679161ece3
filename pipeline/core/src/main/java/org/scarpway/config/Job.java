package org.scarpway.config;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.scarpway.dem.DemRequest;
import org.scarpway.hazard.RockCount;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.survey.DepartureClock;
import org.scarpway.site.SearchParams;
import org.scarpway.terrain.Derivative;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.UnresolvedRule;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walker;

/**
 * A job file after all checks that need no raster: units are SI, names are resolved, paths are
 * absolute. Fields called {@code where} contain file:line:column for messages.
 *
 * @param confidence probability with which limits must hold if the height error is known, 0.5 to
 *     0.99
 * @param soils null if the vehicles' own soils apply everywhere
 * @param walker null if the job names none
 * @param targets null if the job names none
 * @param sites null if the job compares none
 * @param search null if the job searches for none
 * @param light null if the job asks for no light and shadow
 * @param contact null if the job asks for no contact
 * @param report how the answers are shown
 * @param inputs every file that the job names, itself included, sorted
 * @param effective every setting in effect, defaults included, with its origin, for provenance
 * @param overrides settings that the command line set over the file, as given
 */
public record Job(
    Path file,
    String name,
    DemRequest dem,
    TerrainSettings terrain,
    HazardSettings hazard,
    double confidence,
    SoilSettings soils,
    List<Vehicle> vehicles,
    Walker walker,
    List<Place> bases,
    TargetsFile targets,
    List<ReachEntry> reach,
    List<CorridorEntry> corridors,
    List<SortieEntry> sorties,
    SiteSettings sites,
    SearchSettings search,
    LightSettings light,
    ContactSettings contact,
    ReportSettings report,
    List<Path> inputs,
    List<Setting> effective,
    SortedMap<String, String> overrides) {

  public Job {
    vehicles = List.copyOf(vehicles);
    bases = List.copyOf(bases);
    reach = List.copyOf(reach);
    corridors = List.copyOf(corridors);
    sorties = List.copyOf(sorties);
    inputs = List.copyOf(inputs);
    effective = List.copyOf(effective);
    overrides = Collections.unmodifiableSortedMap(new TreeMap<>(overrides));
  }

  /**
   * This job with a further file of keep-out areas.
   *
   * @param file absolute path
   */
  public Job withKeepOut(Path file) {
    List<Path> keepOut = new ArrayList<>(hazard.keepOut());
    keepOut.add(file);
    TreeSet<Path> all = new TreeSet<>(inputs);
    all.add(file);
    return new Job(
        this.file,
        name,
        dem,
        terrain,
        hazard.withKeepOut(keepOut),
        confidence,
        soils,
        vehicles,
        walker,
        bases,
        targets,
        reach,
        corridors,
        sorties,
        sites,
        search,
        light,
        contact,
        report,
        List.copyOf(all),
        effective,
        overrides);
  }

  /**
   * How the answers are shown.
   *
   * @param maxMb size that the report should not exceed (MB)
   * @param figures true if maps are drawn as files of their own
   * @param printScale their scale, metres on the ground to a metre on the paper; NaN for the
   *     largest round one at which one sheet shows all ground
   * @param largePaper true for A3, false for A4
   * @param where place of the section, for messages
   */
  public record ReportSettings(
      double maxMb, boolean figures, double printScale, boolean largePaper, String where) {}

  /** One setting in effect. Origin: "default", "job.yaml:12:5" or "--set". */
  public record Setting(String key, String value, String origin) {}

  /**
   * Settings of the terrain derivatives.
   *
   * @param baselineM baseline (m) over which the ground is measured; null is automatic (the largest
   *     vehicle's footprint)
   * @param also derivatives beyond those of every run
   * @param scaling true if roughness over scales is computed
   * @param monteCarlo null if the job asks for none
   * @param unresolved rule for ground on which the cells do not resolve a limit
   * @param reconnaissance true if tables and report name the classes of military reconnaissance
   */
  public record TerrainSettings(
      SlopeMethod slope,
      Double baselineM,
      Set<Derivative> also,
      boolean scaling,
      MonteCarlo monteCarlo,
      UnresolvedRule unresolved,
      boolean reconnaissance) {
    public TerrainSettings {
      also = Set.copyOf(also);
    }
  }

  /** Number of realisations of the height error, and the seed of their random numbers. */
  public record MonteCarlo(int realisations, long seed) {}

  /**
   * Rocks as one fraction or a raster (never both), keep-out files and the margin around them.
   *
   * @param rockCounts the rocks that coverages count
   * @param rockNoData coverage (fraction) assumed where the raster has no data, null for no verdict
   *     there
   * @param rockSlowM mean free path among rocks (m) below which ground is slow; null is ten vehicle
   *     lengths
   * @param rockNoGoM the same for no-go; null is the vehicle's length
   * @param marginM margin (m) in addition to half the vehicle's width
   * @param minGapM width (m) of a passable gap; null is the vehicle's own width
   * @param turningM length (m) that a closed pocket (dead end) must have for turning; null is the
   *     vehicle's diagonal
   */
  public record HazardSettings(
      Double rockCoverage,
      Path rockCoverageRaster,
      RockCount rockCounts,
      Double rockNoData,
      Double rockSlowM,
      Double rockNoGoM,
      List<Path> keepOut,
      double marginM,
      Double minGapM,
      Double turningM) {
    public HazardSettings {
      keepOut = List.copyOf(keepOut);
    }

    HazardSettings withKeepOut(List<Path> files) {
      return new HazardSettings(
          rockCoverage,
          rockCoverageRaster,
          rockCounts,
          rockNoData,
          rockSlowM,
          rockNoGoM,
          files,
          marginM,
          minGapM,
          turningM);
    }

    /** True if the job gives rocks. */
    public boolean rocks() {
      return rockCoverageRaster != null || (rockCoverage != null && rockCoverage > 0);
    }
  }

  /**
   * Soils by place: classes of a raster, and polygons that override it, later ones overriding
   * earlier ones.
   *
   * @param raster null if there are only polygons
   * @param noData rule for ground on which the raster has no data or a value without a class
   */
  public record SoilSettings(
      Path raster, List<SoilClass> classes, List<Area> areas, SoilMap.Unknown noData) {
    public SoilSettings {
      classes = List.copyOf(classes);
      areas = List.copyOf(areas);
    }

    /** A value of the raster; without a soil it stands for the soil of each vehicle's own file. */
    public record SoilClass(int value, Soil soil) {}

    /** The polygons of a file and their soil. */
    public record Area(Path polygons, Soil soil) {}
  }

  /** A named point in the raster's own CRS and unit, or in lon/lat degrees. */
  public record Place(String name, double x, double y, boolean lonLat, String where) {}

  /** The table of targets, null if the job has none. */
  public record TargetsFile(Path file, String where, List<TargetRow> rows) {
    public TargetsFile {
      rows = List.copyOf(rows);
    }
  }

  /** One row of that table. */
  public record TargetRow(
      Place place, double weight, double stayS, int walkCount, TargetVisit visit) {}

  /**
   * When a sortie may visit a target, in seconds after setting out, nights included.
   *
   * @param must true if a sortie without it is none
   * @param after names of targets that must be done before
   * @param closesS when the stay must have ended; infinite if never
   */
  public record TargetVisit(boolean must, List<String> after, double opensS, double closesS) {
    /** A target that may be visited at any time or not at all. */
    public static final TargetVisit ANY_TIME =
        new TargetVisit(false, List.of(), 0, Double.POSITIVE_INFINITY);

    public TargetVisit {
      after = List.copyOf(after);
    }
  }

  /**
   * A reach question whose names are not yet resolved to coordinates.
   *
   * @param drivenAgain number of trips that are simulated again, besides those to targets
   * @param refuges names of bases or targets where a crew on foot is safe, besides the base
   * @param maxWalkKm longest walk home by the rules of this question; null for that of the walker
   * @param vehicle name of a vehicle of the job, never null
   */
  public record ReachEntry(
      String name,
      String from,
      ReachRequest.Budget budget,
      ReachRequest.HomeRule home,
      List<ReachRequest.Band> bands,
      double stayS,
      Rescue rescue,
      Reserves reserves,
      int drivenAgain,
      boolean beyondBudget,
      List<String> refuges,
      Double maxWalkKm,
      String vehicle,
      String where) {
    public ReachEntry {
      bands = List.copyOf(bands);
      refuges = List.copyOf(refuges);
    }
  }

  /**
   * A corridor question; stops are names of bases or targets.
   *
   * @param anyOrder true if the stops between the first and the last may be visited in any order
   * @param suits worn by the crew in an open vehicle; null in a cabin, or if nothing is known of
   *     them
   * @param vehicle name of a vehicle of the job, never null
   * @param departs clock of the crew's sheet
   * @param homeBy reach questions by whose rules the crew comes home, possibly none
   */
  public record CorridorEntry(
      String name,
      List<String> via,
      boolean anyOrder,
      CorridorRequest.Cost cost,
      List<Double> withinPct,
      int alternatives,
      double mostSharedPct,
      int tradeOffs,
      Reserves reserves,
      ReachRequest.Suits suits,
      String vehicle,
      DepartureClock departs,
      List<String> homeBy,
      String where) {
    public CorridorEntry {
      via = List.copyOf(via);
      withinPct = List.copyOf(withinPct);
      homeBy = List.copyOf(homeBy);
    }
  }

  /**
   * A sortie of days whose names are not yet resolved to coordinates.
   *
   * @param perDayS time of a day for driving and stops (s), reserve included
   * @param driveS time of a day for driving alone (s), reserve included
   * @param egressS time to get out for one walk (s)
   * @param ingressS time to get in after one walk (s)
   * @param nightChargeJ what a night puts into the battery before its load is taken (J)
   * @param energyJ energy when setting out (J); null for a full battery, or none if it is unknown
   * @param lifeSupportS supplies of the crew by this sortie (s); null for those of the vehicle
   * @param home never NONE
   * @param refuges names of bases or targets where a crew on foot is safe, besides the base
   * @param camps names of places where nights may be spent; null for anywhere
   * @param stops names of targets to choose from
   * @param vehicle name of a vehicle of the job, never null
   */
  public record SortieEntry(
      String name,
      String from,
      int days,
      double perDayS,
      double driveS,
      int walksADay,
      double egressS,
      double ingressS,
      double nightChargeJ,
      Double energyJ,
      Double lifeSupportS,
      ReachRequest.HomeRule home,
      List<String> refuges,
      List<String> camps,
      List<String> stops,
      Rescue rescue,
      Reserves reserves,
      String vehicle,
      String where) {
    public SortieEntry {
      refuges = List.copyOf(refuges);
      camps = camps == null ? null : List.copyOf(camps);
      stops = List.copyOf(stops);
    }
  }

  /**
   * Candidate sites to compare.
   *
   * @param ellipseAzimuthDeg azimuth (deg) of the long axis, clockwise from true north
   * @param monteCarlo null if the job asks for none
   */
  public record SiteSettings(
      List<String> candidates,
      double ellipseLongM,
      double ellipseShortM,
      double ellipseAzimuthDeg,
      List<Weight> weights,
      MonteCarlo monteCarlo,
      String where) {
    public SiteSettings {
      candidates = List.copyOf(candidates);
      weights = List.copyOf(weights);
    }
  }

  /**
   * Settings of the search for sites.
   *
   * @param vehicle name of a vehicle of the job
   */
  public record SearchSettings(SearchParams params, String vehicle, String where) {}

  /** The weight of one figure in the site comparison. */
  public record Weight(String figure, double weight) {}
}
