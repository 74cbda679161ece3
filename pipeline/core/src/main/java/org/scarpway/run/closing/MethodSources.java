package org.scarpway.run.closing;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.scarpway.config.Job;
import org.scarpway.report.ReportData.Source;
import org.scarpway.terrain.Derivative;
import org.scarpway.vehicle.MetabolicEquation;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.Vehicle;

/** The published sources of the methods that a job's settings use, for the report. */
final class MethodSources {
  private MethodSources() {}

  static List<Source> of(Job job) {
    List<Source> s = new ArrayList<>();
    switch (job.terrain().slope()) {
      case HORN ->
          add(
              s,
              "Slope and aspect: third-order finite difference",
              "Horn 1981, Proc. IEEE 69(1):14-47");
      case ZEVENBERGEN_THORNE ->
          add(
              s,
              "Slope and aspect: second-order finite difference",
              "Zevenbergen and Thorne 1987, Earth Surf. Process. Landf. 12:47-56");
      case EVANS_YOUNG ->
          add(
              s,
              "Slope and aspect: six-parameter least squares",
              "Evans 1972, in Chorley (ed.) Spatial Analysis in Geomorphology; Young 1978");
      case FOOTPRINT_PLANE ->
          add(
              s,
              "Slope and aspect: least-squares plane over the vehicle's footprint",
              "generic least squares");
    }
    add(s, "Ruggedness", "Riley, DeGloria and Elliot 1999, Intermountain J. Sci. 5(1-4):23-27");
    add(s, "Roughness: RMS residual from the footprint plane", "generic least squares");
    add(
        s,
        "Roughness below the cell size: self-affine law",
        "Shepard et al. 2001, JGR 106(E12):32777-32795");
    for (Derivative d : new TreeSet<>(job.terrain().also())) {
      add(s, capital(d.title()), d.source());
    }
    if (job.terrain().scaling()) {
      add(s, "RMS deviation and Hurst exponent", "Shepard et al. 2001, JGR 106(E12):32777-32795");
      add(s, "Median differential slope", "Kreslavsky and Head 2000, JGR 105(E11):26695-26711");
    }
    if (job.dem().verticalSigmaM() != null) {
      add(
          s,
          "Slope and aspect error from height error, closed form",
          "Heuvelink 1998, Error Propagation in Environmental Modelling with GIS; Hunter and Goodchild 1997, Geogr. Analysis 29(1):35-49; Rice 1944");
    }
    if (job.terrain().monteCarlo() != null
        || (job.sites() != null && job.sites().monteCarlo() != null)) {
      add(
          s,
          "Correlated error fields by circulant embedding",
          "Dietrich and Newsam 1997, SIAM J. Sci. Comput. 18(4):1088-1107");
    }
    if (job.light() != null) {
      light(s, job);
    }
    if (job.hazard().rockCoverage() != null || job.hazard().rockCoverageRaster() != null) {
      add(
          s,
          "Rock size-frequency",
          job.hazard().rockCounts().exponent() == null
              ? "Golombek and Rapp 1997, JGR 102(E2):4117-4129"
              : "Shoemaker and Morris 1970, Icarus 12:188-212");
    }
    if (job.hazard().rocks()) {
      add(
          s,
          "Ways and speed among rocks: shortest ways among discs at random, critical speed",
          "own derivation and Monte Carlo; percolation of discs: arXiv 2010.02895; Karaman and Frazzoli 2012, ICRA 2899-2906");
    }
    List<Soil> soils = new ArrayList<>();
    if (job.soils() != null) {
      job.soils().classes().forEach(c -> soils.add(c.soil()));
      job.soils().areas().forEach(a -> soils.add(a.soil()));
    }
    boolean tip = false;
    for (Vehicle v : job.vehicles()) {
      soils.add(v.soil());
      tip |= v.body().cgHeightM() != null;
    }
    soils.removeIf(soil -> soil == null);
    if (tip) {
      add(s, "Static tip-over about the edges of the support polygon", "statics of a rigid body");
    }
    if (soils.stream().anyMatch(soil -> soil.bekker() != null)) {
      bekker(s);
    }
    if (soils.stream().anyMatch(soil -> soil.ratingConeIndex() != null)) {
      coneIndex(s);
    }
    if (job.walker() != null && "tobler".equals(job.walker().speedFunction())) {
      add(s, "Walking speed", "Tobler 1993, NCGIA Technical Report 93-1");
    }
    if (job.walker() != null && job.walker().metabolic() != null) {
      add(
          s,
          "Metabolic rate on foot",
          switch (MetabolicEquation.ofKey(job.walker().name(), job.walker().metabolic())) {
            case PANDOLF ->
                "Pandolf, Givoni and Goldman 1977, J. Appl. Physiol. 43:577-581; downhill Santee et al. 2001, Aviat. Space Environ. Med. 72(6):562-566, to 12 %";
            case MINETTI -> "Minetti et al. 2002, J. Appl. Physiol. 93:1039-1046";
            case SUITED_LUNAR ->
                "Relation for suited walking on the Moon as given by a secondary source that names Santee 2001; the original was not read";
          });
      if (job.walker().terrainFactor() > 1) {
        add(
            s,
            "Terrain factors of walking",
            "Soule and Goldman 1972, J. Appl. Physiol. 32(5):706-708");
      }
    }
    add(
        s,
        "Accumulated cost on a heading-resolved front",
        "Tsitsiklis 1995, IEEE Trans. Autom. Control 40(9):1528-1538; Sethian and Vladimirsky 2003, SIAM J. Numer. Anal. 41(1):325-363; Alton and Mitchell 2012, J. Sci. Comput. 51:313-348");
    if (job.search() != null) {
      add(
          s,
          "Screening of places: least cost over 8 neighbours by sweeps",
          "Zhao 2005, Math. Comp. 74:603-627");
    }
    add(s, "Energy with regeneration by a height potential", "Johnson 1977, J. ACM 24(1):1-13");
    add(s, "Body figures", "Archinal et al. 2018, Celest. Mech. Dyn. Astr. 130:22");
    return s;
  }

  private static void light(List<Source> s, Job job) {
    add(
        s,
        "Horizons by one pass for each azimuth",
        "order of the work as in Dozier, Bruno and Downey 1981, Computers and Geosciences"
            + " 7:145-151; hulls on the sphere: own derivation");
    if (job.light().table() != null) {
      add(s, "Sun and Earth", "table of the mission: " + job.light().tableFile().getFileName());
      return;
    }
    switch (job.dem().body().name()) {
      case "moon" -> {
        add(s, "Moon and Sun", "Meeus 1998, Astronomical Algorithms, 2nd ed., ch. 25 and 47");
        add(
            s,
            "Mean-Earth axes of the Moon",
            "Archinal et al. 2011, Celest. Mech. Dyn. Astr. 109:101-135");
      }
      case "mars" ->
          add(s, "Sun over Mars", "Allison and McEwen 2000, Planet. Space Sci. 48:215-235");
      default ->
          add(s, "Sun over the Earth", "Meeus 1998, Astronomical Algorithms, 2nd ed., ch. 25");
    }
  }

  private static void bekker(List<Source> s) {
    add(s, "Pressure and sinkage", "Bekker 1969, Introduction to Terrain-Vehicle Systems");
    add(s, "Motion resistance by compaction", "Wong 2008, Theory of Ground Vehicles, 4th ed.");
    add(
        s,
        "Shear and slip",
        "Janosi and Hanamoto 1961, Analytical determination of drawbar pull as a function of slip"
            + " for tracked vehicles in deformable soils, Proc. 1st Int. Conf. Mechanics of"
            + " Soil-Vehicle Systems, Turin");
    add(
        s,
        "Sinkage with slip",
        "Lyasko 2010, J. Terramech. 47(1):21-31 (secondary); light wheels by a public table of"
            + " single-wheel tests, resistance by own derivation");
  }

  private static void coneIndex(List<Source> s) {
    add(
        s,
        "Bearing by cone index",
        "Priddy and Willoughby 2006, J. Terramech. 43:85-96; 50 passes by public codes, the report"
            + " behind them not found");
    add(
        s,
        "Pull and resistance on ground with a cone index",
        "relations for single wheels: Wismer and Luth 1974; Gee-Clough et al. 1978, J. Terramech."
            + " 15(2):81-94 (secondary); the pull at the vehicle cone index taken"
            + " off by own choice");
  }

  private static String capital(String text) {
    return Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  private static void add(List<Source> list, String method, String publication) {
    list.add(new Source(method, publication));
  }
}
