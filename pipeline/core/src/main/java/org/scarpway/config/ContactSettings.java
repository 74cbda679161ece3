package org.scarpway.config;

import java.util.List;
import java.util.Locale;

/**
 * Settings of contact by radio.
 *
 * @param earthMarginDeg how far the Earth's centre must stand above the horizon (degrees), null if
 *     contact with the Earth is not asked for
 * @param antennaM height of the vehicle's antenna above the ground (m)
 * @param masts masts of the base, and relays
 * @param frequencyMhz frequency of the links to masts (MHz), null for straight sight alone
 * @param clearShare share of the first Fresnel zone that must be free
 * @param bending share of the body's curvature by which radio rays bend
 * @param where position in the job, for messages
 */
public record ContactSettings(
    Double earthMarginDeg,
    double antennaM,
    List<Mast> masts,
    Double frequencyMhz,
    double clearShare,
    double bending,
    String where) {
  public ContactSettings {
    masts = List.copyOf(masts);
  }

  /** Name of the file with the antenna heights that see the mast at a place, without its suffix. */
  public static String fileName(String place) {
    return "antenna_m_" + place.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
  }

  /**
   * A mast at a place of the job.
   *
   * @param at name of a base or target
   * @param heightM height of its antenna above the ground (m)
   * @param relay true if it passes on what it hears from a mast that is none
   * @param where position in the job, for messages
   */
  public record Mast(String at, double heightM, boolean relay, String where) {}
}
