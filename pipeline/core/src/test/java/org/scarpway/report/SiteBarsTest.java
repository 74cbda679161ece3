package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.report.ReportData.Contributions;
import org.scarpway.report.ReportData.Site;

class SiteBarsTest {
  @Test
  void namesOfPlacesAreNoMarkup() {
    String html =
        SiteBars.chart(
                new Contributions(
                    List.of("a & b"),
                    List.of(1.0),
                    List.of(new Site("<i>\"x\"</i>", 0.4, List.of(0.4)))))
            .html();
    assertFalse(html.contains("<i>"), html);
    assertTrue(html.contains("a &amp; b"));
    assertTrue(html.contains("data-place=\"&lt;i&gt;&quot;x&quot;&lt;/i&gt;\""), html);
  }

  @Test
  void placesThatAreNotDrawnAreTold() {
    List<Site> many = new ArrayList<>();
    for (int i = 0; i < 15; i++) {
      many.add(new Site("s" + i, 0.5, List.of(0.5)));
    }
    Section.Chart chart = SiteBars.chart(new Contributions(List.of("a"), List.of(1.0), many));
    assertEquals(12, chart.html().split("data-place", -1).length - 1);
    assertTrue(chart.title().contains("3 lower ranks"), chart.title());
  }
}
