package org.scarpway.site;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class SiteRankingTest {
  private static final Map<SiteFigure, Double> AREA_AND_SLOPE =
      Map.of(SiteFigure.REACH_AREA, 3.0, SiteFigure.MEAN_SLOPE, 1.0);

  private static SiteFigures site(String name, double areaKm2, double slopeDeg) {
    Map<SiteFigure, Double> v = new EnumMap<>(SiteFigure.class);
    for (SiteFigure f : SiteFigure.values()) {
      v.put(f, Double.NaN);
    }
    v.put(SiteFigure.REACH_AREA, areaKm2);
    v.put(SiteFigure.MEAN_SLOPE, slopeDeg);
    return new SiteFigures(name, 0, 0, v, List.of(), 0);
  }

  private static final List<SiteFigures> THREE =
      List.of(site("wide", 10, 8), site("flat", 4, 2), site("poor", 2, 6));

  @Test
  void scoresAreWeightedMeansBetweenWorstAndBest() {
    List<SiteScore> r = SiteRanking.rank(THREE, AREA_AND_SLOPE);
    assertEquals(List.of("wide", "flat", "poor"), r.stream().map(s -> s.figures().name()).toList());
    assertEquals(0.75, r.get(0).score01(), 1e-12);
    assertEquals((3 * 0.25 + 1) / 4, r.get(1).score01(), 1e-12);
    assertEquals((6 - 4.0) / 6 / 4, r.get(2).score01(), 1e-12);
    assertEquals(1, r.get(0).rank());
  }

  /** Areas by two questions; the mean of the areas is left to itself. */
  private static SiteFigures asked(String name, double slopeDeg, double... areasKm2) {
    SiteFigures s = site(name, Arrays.stream(areasKm2).average().orElse(Double.NaN), slopeDeg);
    List<SiteFigures.ReachedArea> areas =
        Arrays.stream(areasKm2)
            .mapToObj(km2 -> new SiteFigures.ReachedArea("q", km2 * 1e6, 0))
            .toList();
    return new SiteFigures(name, 0, 0, s.values(), areas, 0);
  }

  /** A wide question does not drown a narrow one: each is scaled by itself. */
  @Test
  void everyQuestionCountsAlike() {
    List<SiteFigures> two = List.of(asked("far", 5, 100, 1), asked("safe", 5, 98, 3));
    Map<SiteFigure, Double> area = Map.of(SiteFigure.REACH_AREA, 1.0);
    List<SiteScore> r = SiteRanking.rank(two, area);
    assertEquals(0.5, r.get(0).score01(), 1e-12);
    assertEquals(0.5, r.get(1).score01(), 1e-12);
    assertTrue(r.get(0).onParetoFront() && r.get(1).onParetoFront());
    List<SiteFigures> three =
        List.of(asked("a", 1, 10, 2), asked("b", 3, 20, 1), asked("c", 2, 15, 3));
    List<SiteScore> ranked = SiteRanking.rank(three, AREA_AND_SLOPE);
    // a: (0 + 1/2) / 2 of the area and all of the slope; c: (1/2 + 1) / 2 and half of it.
    assertEquals("c", ranked.get(0).figures().name());
    assertEquals((3 * 0.75 + 0.5) / 4, ranked.get(0).score01(), 1e-12);
    assertEquals("a", ranked.get(1).figures().name());
    assertEquals((3 * 0.25 + 1) / 4, ranked.get(1).score01(), 1e-12);
    List<Map<SiteFigure, Double>> adds = SiteRanking.contributions(ranked, AREA_AND_SLOPE);
    for (int i = 0; i < ranked.size(); i++) {
      double sum = adds.get(i).values().stream().mapToDouble(v -> v).sum();
      assertEquals(ranked.get(i).score01(), sum, 1e-12);
    }
    assertEquals(0.75 * 0.75, adds.get(0).get(SiteFigure.REACH_AREA), 1e-12);
    assertEquals(0.75, SiteRanking.shares(AREA_AND_SLOPE).get(SiteFigure.REACH_AREA), 1e-12);
    Map<SiteFigure, Double> lead = SiteRanking.lead(ranked, AREA_AND_SLOPE);
    assertEquals(3 * 0.5 / 4, lead.get(SiteFigure.REACH_AREA), 1e-12);
    assertEquals(-0.5 / 4, lead.get(SiteFigure.MEAN_SLOPE), 1e-12);
    assertEquals(
        ranked.get(0).score01() - ranked.get(1).score01(),
        lead.values().stream().mapToDouble(v -> v).sum(),
        1e-12);
  }

  @Test
  void theFrontHoldsWhatNothingBeats() {
    List<SiteScore> r = SiteRanking.rank(THREE, AREA_AND_SLOPE);
    assertTrue(r.get(0).onParetoFront());
    assertTrue(r.get(1).onParetoFront());
    assertFalse(r.get(2).onParetoFront(), "flat reaches more and is flatter");
    List<SiteScore> areaOnly = SiteRanking.rank(THREE, Map.of(SiteFigure.REACH_AREA, 1.0));
    assertFalse(areaOnly.get(1).onParetoFront());
  }

  @Test
  void equalsShareTheFrontAndKeepTheirOrder() {
    List<SiteScore> r = SiteRanking.rank(List.of(site("b", 1, 1), site("a", 1, 1)), AREA_AND_SLOPE);
    assertEquals("b", r.get(0).figures().name());
    assertTrue(r.get(0).onParetoFront() && r.get(1).onParetoFront());
  }

  @Test
  void unknownIsWorstAndEndlessIsBest() {
    List<SiteScore> r =
        SiteRanking.rank(
            List.of(
                site("unknown", Double.NaN, 1),
                site("low", 1, 1),
                site("high", 2, 1),
                site("endless", Double.POSITIVE_INFINITY, 1)),
            Map.of(SiteFigure.REACH_AREA, 1.0));
    assertEquals(
        List.of("high", "endless", "unknown", "low"),
        r.stream().map(s -> s.figures().name()).toList());
  }

  @Test
  void stabilityOverWeightsFollowsTheTippingPoint() {
    List<RankStability> any = RankStability.overAnyWeights(THREE, AREA_AND_SLOPE, 20_000, 1);
    // wide beats flat if 0.75 w > 1 - w, w the share of area: w > 4/7, evenly drawn.
    assertEquals(100.0 * 3 / 7, any.get(0).firstPct(), 1.5);
    assertEquals(100.0 * 4 / 7, any.get(1).firstPct(), 1.5);
    assertEquals(0, any.get(2).firstPct());
    List<RankStability> near = RankStability.overWeights(THREE, AREA_AND_SLOPE, 0.2, 500, 1);
    assertEquals(100, near.get(0).firstPct());
    assertEquals(1, near.get(0).worstRank());
    assertEquals(2, near.get(1).meanRank(), 1e-12);
    assertEquals(near, RankStability.overWeights(THREE, AREA_AND_SLOPE, 0.2, 500, 1), "same seed");
  }

  /** Areas 10 and 4 in three realisations, 2 and 4 in one: ranks by hand, sigma sqrt(48 / 3). */
  @Test
  void stabilityAndSpreadOverRealisationsAreThoseOfTheDraws() {
    List<SiteFigures> usual = List.of(site("wide", 10, 1), site("steady", 4, 1));
    List<SiteFigures> bad = List.of(site("wide", 2, 1), site("steady", 4, 1));
    List<List<SiteFigures>> drawn = List.of(usual, bad, usual, usual);
    List<RankStability> ranks =
        RankStability.overRealisations(drawn, Map.of(SiteFigure.REACH_AREA, 1.0));
    assertEquals(new RankStability("wide", "height error", 4, 75, 1.25, 1, 2), ranks.get(0));
    assertEquals(new RankStability("steady", "height error", 4, 25, 1.75, 1, 2), ranks.get(1));
    List<FigureSpread> spread = FigureSpread.of(drawn);
    assertEquals(
        new FigureSpread("wide", SiteFigure.REACH_AREA, 4, 8, Math.sqrt(48 / 3.0), 2, 10),
        spread.get(SiteFigure.REACH_AREA.ordinal()));
    FigureSpread never = spread.get(SiteFigure.GAP_WIDTH.ordinal());
    assertEquals(0, never.known());
    assertTrue(Double.isNaN(never.mean()) && Double.isNaN(never.least()));
    assertEquals(2 * SiteFigure.values().length, spread.size());
  }

  @Test
  void paramsRefuseNonsense() {
    assertThrows(IllegalArgumentException.class, () -> new SiteParams(1, 2, 0, Map.of()));
    assertThrows(
        IllegalArgumentException.class,
        () -> new SiteParams(2, 1, 0, Map.of(SiteFigure.TARGETS, -1.0)));
    assertThrows(
        IllegalArgumentException.class,
        () -> new SiteParams(2, 1, 0, Map.of(SiteFigure.TARGETS, 0.0)));
    assertEquals(SiteFigure.TARGETS, SiteFigure.ofKey("targets").orElseThrow());
    assertTrue(SiteFigure.ofKey("nonsense").isEmpty());
  }
}
