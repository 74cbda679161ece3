package org.scarpway.light;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * Light (or sight of the Earth) at one place over a window of time, above the horizon by rays.
 *
 * @param looks what stands where at each time
 * @param spells times above and not above the threshold, in turn, which fill the window
 * @param meanShare mean share (0 to 1) of the disk over the window
 */
public record PlaceTrack(List<Look> looks, List<Spell> spells, double meanShare) {
  /** Copies the lists. */
  public PlaceTrack {
    looks = List.copyOf(looks);
    spells = List.copyOf(spells);
  }

  /**
   * One look at the sky.
   *
   * @param utc time
   * @param elevationDeg elevation of the centre (degrees)
   * @param azimuthDeg azimuth clockwise from the map's y axis (degrees)
   * @param horizonDeg elevation of the horizon there (degrees)
   * @param share share (0 to 1) of the disk above it
   */
  public record Look(
      Instant utc, double elevationDeg, double azimuthDeg, double horizonDeg, double share) {}

  /**
   * A spell.
   *
   * @param from its beginning
   * @param to its end
   * @param above true above the threshold
   * @param cut true if the window cuts it, so that it lasts at least as long
   */
  public record Spell(Instant from, Instant to, boolean above, boolean cut) {
    /** How long it lasts (h), as far as it was seen. */
    public double hours() {
      return (double) Duration.between(from, to).toMillis() / 3.6e6;
    }
  }

  /**
   * Follows the sun, or the Earth, over a place.
   *
   * @param around the place's horizon
   * @param axes its directions
   * @param question as asked of cells; its given times are not used
   * @param sun true for the sun, false for the Earth
   */
  public static PlaceTrack of(
      Sky sky,
      List<Instant> times,
      Sight.Around around,
      PlaceAxes axes,
      TrackRows.Question question,
      boolean sun) {
    PlaceAxes.Direction at = new PlaceAxes.Direction();
    List<Look> looks = new ArrayList<>();
    List<Spell> spells = new ArrayList<>();
    double radii = sun ? DiskShare.radii(question.threshold()) : 0;
    double mean = 0;
    double before = 0;
    Instant from = times.get(0);
    double windowS = seconds(times.get(0), times.get(times.size() - 1));
    for (int i = 0; i < times.size(); i++) {
      SkyPosition p = sky.at(times.get(i));
      if (sun) {
        axes.sun(p, at);
      } else {
        axes.earth(p, at);
      }
      double horizon = horizon(around, at.azimuthDeg());
      double high = at.elevationDeg() - horizon - question.raisedDeg();
      double u = sun ? high / p.sunRadiusDeg() : high / p.earthRadiusDeg();
      double hidden = sun ? hidden(p, axes, at) : 0;
      double share = DiskShare.of(u) * (1 - hidden);
      double over = sun ? u - radii : high;
      if (hidden > 0 && share <= question.threshold()) {
        over = Math.min(over, 0);
      }
      looks.add(new Look(times.get(i), at.elevationDeg(), at.azimuthDeg(), horizon, share));
      double aroundS =
          (i == 0 ? 0 : seconds(times.get(i - 1), times.get(i)))
              + (i + 1 == times.size() ? 0 : seconds(times.get(i), times.get(i + 1)));
      mean += share * aroundS / (2 * windowS);
      if (i > 0 && (over > 0) != (before > 0)) {
        double part = before / (before - over);
        Instant change =
            times
                .get(i - 1)
                .plusMillis(Math.round(1000 * part * seconds(times.get(i - 1), times.get(i))));
        spells.add(new Spell(from, change, before > 0, spells.isEmpty()));
        from = change;
      }
      before = over;
    }
    spells.add(new Spell(from, times.get(times.size() - 1), before > 0, true));
    return new PlaceTrack(looks, spells, mean);
  }

  private static double hidden(SkyPosition p, PlaceAxes axes, PlaceAxes.Direction sun) {
    if (Double.isNaN(p.earthKm())) {
      return 0;
    }
    PlaceAxes.Direction earth = new PlaceAxes.Direction();
    axes.earth(p, earth);
    double apart = SkyTrack.apartDeg(sun, earth);
    return DiskShare.hidden(p.sunRadiusDeg(), p.earthRadiusDeg(), apart);
  }

  private static double horizon(Sight.Around around, double azimuthDeg) {
    int n = around.elevationDeg().size();
    double at = azimuthDeg / 360 * n;
    int a = Math.floorMod((int) Math.floor(at), n);
    double part = at - Math.floor(at);
    return around.elevationDeg().get(a) * (1 - part)
        + around.elevationDeg().get((a + 1) % n) * part;
  }

  private static double seconds(Instant from, Instant to) {
    return (double) Duration.between(from, to).toMillis() / 1000;
  }

  /** Share (0 to 1) of the window above the threshold. */
  public double aboveShare() {
    double above = 0;
    double all = 0;
    for (Spell s : spells) {
      above += s.above() ? s.hours() : 0;
      all += s.hours();
    }
    return above / all;
  }

  /** True if the longest spell not above the threshold may last longer than any that was seen. */
  public boolean longestIsAtLeast() {
    return spells.stream().anyMatch(s -> !s.above() && s.cut());
  }

  /** The longest spell not above the threshold, null if there is none. */
  public Spell longestBelow() {
    Spell longest = null;
    for (Spell s : spells) {
      if (!s.above() && (longest == null || s.hours() > longest.hours())) {
        longest = s;
      }
    }
    return longest;
  }
}
