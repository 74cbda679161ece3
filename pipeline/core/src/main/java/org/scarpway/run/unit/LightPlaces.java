package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.light.PlaceTrack;

/**
 * What a report shows of light, or of sight of the Earth, at the places of a job.
 *
 * @param places in the order of the job
 */
public record LightPlaces(List<At> places) {
  /** Points of a path through the sky that a report draws. */
  private static final int MOST_POINTS = 1500;

  public LightPlaces {
    places = List.copyOf(places);
  }

  /**
   * A place.
   *
   * @param horizonDeg elevation of the horizon by azimuth, from grid north clockwise
   * @param edge true where it lies at the edge of the data
   * @param path points of the path through the sky
   * @param meanShare mean share of the disk above the horizon
   * @param aboveShare share of the window above the threshold, cautious
   * @param longestBelowH longest spell below the threshold (h), cautious, 0 for none
   * @param atLeast true if it may be longer: the window cuts a spell, or a horizon is not surely
   *     known
   */
  public record At(
      String name,
      double xM,
      double yM,
      List<Double> horizonDeg,
      List<Boolean> edge,
      List<Point> path,
      double meanShare,
      double aboveShare,
      double longestBelowH,
      boolean atLeast) {
    public At {
      horizonDeg = List.copyOf(horizonDeg);
      edge = List.copyOf(edge);
      path = List.copyOf(path);
    }
  }

  /** A point of a path: azimuth from grid north and elevation, degrees. */
  public record Point(double azimuthDeg, double elevationDeg) {}

  static LightPlaces of(List<LitPlace> places) {
    List<At> all = new ArrayList<>();
    for (LitPlace p : places) {
      PlaceTrack.Spell longest = p.cautious().longestBelow();
      all.add(
          new At(
              p.name(),
              p.xM(),
              p.yM(),
              p.around().elevationDeg().stream().map(e -> rounded(e)).toList(),
              p.around().atEdge(),
              path(p.plain().looks()),
              p.plain().meanShare(),
              p.cautious().aboveShare(),
              longest == null ? 0 : longest.hours(),
              p.longestIsAtLeast()));
    }
    return new LightPlaces(all);
  }

  private static List<Point> path(List<PlaceTrack.Look> looks) {
    int every = (looks.size() + MOST_POINTS - 1) / MOST_POINTS;
    List<Point> path = new ArrayList<>();
    for (int i = 0; i < looks.size(); i += every) {
      PlaceTrack.Look l = looks.get(i);
      path.add(new Point(rounded(l.azimuthDeg()), rounded(l.elevationDeg())));
    }
    return path;
  }

  private static double rounded(double deg) {
    return Math.rint(1000 * deg) / 1000;
  }
}
