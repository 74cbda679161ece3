package org.scarpway.report;

import java.util.List;
import java.util.Map;
import org.scarpway.report.ReportData.Contributions;
import org.scarpway.report.ReportData.Site;

/**
 * Draws what each figure adds to the score of each place in a ranking: a row for each figure, a
 * column for each place. A frame shows what the figure adds where it is best.
 */
final class SiteBars {
  private static final int WIDTH = 860;
  private static final int NAMES = 330;
  private static final int ROW = 22;
  private static final int TOP = 40;
  private static final int GAP = 10;

  /** Places that are drawn, the best ones. */
  private static final int MOST = 12;

  private SiteBars() {}

  static Section.Chart chart(Contributions all) {
    List<Site> sites = all.sites().subList(0, Math.min(MOST, all.sites().size()));
    double column = (WIDTH - NAMES) / (double) Math.max(2, sites.size());
    double most = all.most().stream().mapToDouble(v -> v).max().orElse(1);
    double perUnit = (column - GAP) / most;
    int rows = all.figures().size();
    Svg svg =
        new Svg(
            WIDTH,
            TOP + (rows + 1) * ROW,
            "What each figure adds to the score of each place; the table has the figures",
            Map.of());
    for (int f = 0; f < rows; f++) {
      double y = TOP + (double) f * ROW;
      svg.path("rule", "M0 " + Svg.n(y - 3) + "H" + WIDTH);
      svg.text(0, y + 13, "start", all.figures().get(f));
    }
    svg.path("rule", "M0 " + (TOP + rows * ROW - 3) + "H" + WIDTH);
    svg.text(0, TOP + rows * ROW + 13.0, "start", "score, the sum");
    for (int s = 0; s < sites.size(); s++) {
      Site site = sites.get(s);
      double x = NAMES + s * column;
      svg.group("bar", Map.of("place", site.name(), "says", says(site, all.figures())));
      svg.rect("reach-for", x, 0, column - GAP, TOP + (rows + 1) * ROW);
      svg.text(x, 14, "start", "rank " + (s + 1));
      svg.text(x, 30, "start", shortened(site.name(), column));
      for (int f = 0; f < rows; f++) {
        double y = TOP + (double) f * ROW;
        svg.rect("adds", x, y, Math.max(0, site.adds().get(f)) * perUnit, ROW - 6);
        svg.rect("frame-of", x, y, all.most().get(f) * perUnit, ROW - 6);
      }
      svg.text(x, TOP + rows * ROW + 13.0, "start", Figures.fixed(site.score(), 3));
      svg.endGroup();
    }
    int left = all.sites().size() - sites.size();
    return new Section.Chart(
        "What each figure adds to the score: filled; in the frame, what it adds at the best place"
            + (left > 0 ? "; " + left + " lower ranks are in the table alone" : ""),
        svg.end(),
        "sites 0");
  }

  private static String shortened(String name, double width) {
    int most = Math.max(4, (int) (width / 8));
    return name.length() <= most ? name : name.substring(0, most - 1) + "…";
  }

  private static String says(Site site, List<String> figures) {
    StringBuilder text = new StringBuilder(site.name());
    text.append(": score ").append(Figures.fixed(site.score(), 3));
    for (int f = 0; f < figures.size(); f++) {
      text.append(f == 0 ? ", " : "; ").append(Figures.fixed(site.adds().get(f), 3));
      text.append(" from ").append(figures.get(f));
    }
    return text.toString();
  }
}
