package org.scarpway.config;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.Job.SiteSettings;
import org.scarpway.config.Job.Weight;
import org.scarpway.dem.DemRequest;

/** Reads the section sites of a job. */
final class SiteSectionReader {
  private SiteSectionReader() {}

  /**
   * Returns the settings, or null if the job compares no sites.
   *
   * @param dem null if its section has problems of its own
   */
  static SiteSettings read(Entry sites, JobNames names, DemRequest dem, Problems problems) {
    if (!sites.sound()) {
      return null;
    }
    if (!sites.has("candidates")) {
      refuseWithoutCandidates(sites, problems);
      return null;
    }
    if (!sites.has("ellipse_m")) {
      problems.add(
          sites.keyAt(),
          "key ellipse_m is missing in sites",
          "a list of 2 entries (full axes of the landing ellipse, long then short, metres)",
          "add ellipse_m");
      return null;
    }
    List<String> candidates = new ArrayList<>();
    for (Entry candidate : sites.get("candidates").items()) {
      names.requireBase(candidate, problems);
      if (candidates.contains(candidate.text())) {
        problems.add(
            candidate.at(),
            "candidate " + Problems.quote(candidate.text()) + " is listed twice",
            "every candidate once",
            "remove one of them");
      }
      candidates.add(candidate.text());
    }
    List<Entry> axesM = sites.get("ellipse_m").items();
    if (axesM.get(0).number() < axesM.get(1).number()) {
      problems.add(
          axesM.get(1).at(),
          "ellipse_m has the short axis first",
          "the long axis, then the short one",
          "swap them");
    }
    Double azimuthDeg = sites.get("ellipse_azimuth_deg").number();
    List<Weight> weights = new ArrayList<>();
    double sum = 0;
    for (Entry weight : sites.get("weights").members()) {
      weights.add(new Weight(weight.name(), weight.number()));
      sum += weight.number();
    }
    if (!weights.isEmpty() && sum == 0) {
      problems.add(
          sites.get("weights").at(),
          "all weights are 0",
          "at least one weight above 0",
          "raise one of them");
    }
    return new SiteSettings(
        candidates,
        axesM.get(0).number(),
        axesM.get(1).number(),
        azimuthDeg == null ? 0 : azimuthDeg,
        weights,
        MonteCarloSectionReader.read(sites.get("monte_carlo"), dem, problems),
        sites.keyAt().toString());
  }

  private static void refuseWithoutCandidates(Entry sites, Problems problems) {
    if (!sites.has("search")) {
      problems.add(
          sites.keyAt(),
          "sites without candidates or search",
          "candidates to compare, a search for places, or both",
          "add one of them");
    }
    Entry weights = sites.get("weights");
    if (!weights.members().isEmpty()) {
      refuse(weights, problems);
    }
    for (String key : List.of("ellipse_azimuth_deg", "monte_carlo")) {
      if (sites.has(key)) {
        refuse(sites.get(key), problems);
      }
    }
  }

  private static void refuse(Entry entry, Problems problems) {
    problems.add(
        entry.keyAt(),
        entry.name() + " without candidates",
        "candidates to compare",
        "add candidates or remove it");
  }
}
