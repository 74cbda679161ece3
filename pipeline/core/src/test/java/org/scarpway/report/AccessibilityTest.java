package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The report as people with a reader of screens, with keys alone or with little sight have it. */
class AccessibilityTest {
  private static final String READY = "document.documentElement.dataset.script === 'ready'";

  @TempDir static Path dir;
  private static Browser browser;
  private static Axe axe;

  @BeforeAll
  static void start() throws Exception {
    browser = new Browser(dir, 1300, 900);
    axe = new Axe();
  }

  @AfterAll
  static void end() {
    browser.close();
  }

  private static void open(ReportData data, int width) {
    Path page = dir.resolve("index.html");
    Report.write(page, data, ReportFixture.WORKERS);
    browser.size(width, 900);
    browser.open("about:blank");
    browser.open(page.toUri().toString());
    browser.until(READY);
  }

  /** A judge that finds nothing in a page with faults would prove nothing. */
  @Test
  void theJudgeFindsWhatIsWrong() {
    browser.open("about:blank");
    browser.eval(
        "document.body.innerHTML = '<img src=\"data:,\"><p style=\"color:#bbb\">pale</p>"
            + "<button></button>'");
    String found = String.join(" ", axe.violations(browser));
    for (String rule : List.of("image-alt", "color-contrast", "button-name", "html-has-lang")) {
      assertTrue(found.contains(rule), rule + " in " + found);
    }
  }

  @Test
  void nothingIsWrongOnTheReport() {
    for (int width : new int[] {390, 1300}) {
      open(ReportFixture.full(), width);
      assertEquals(List.of(), axe.violations(browser), "at " + width);
      assertTrue(axe.rulesHeld(browser) > 20);
    }
  }

  /** Also where everything is open that a reader can open. */
  @Test
  void nothingIsWrongWhereAllIsOpen() {
    open(ReportFixture.full(), 1300);
    browser.eval("document.getElementById('two').click()");
    browser.until("scarpway.views.length === 2");
    browser.eval("document.querySelectorAll('details').forEach(d => { d.open = true; })");
    browser.eval("scarpway.shared.next(1); 0");
    browser.until("document.querySelector('#place h3') !== null");
    int plots = browser.eval("document.querySelectorAll('#plot-kinds button').length").asInt();
    assertTrue(plots >= 4, plots + " plots");
    for (int i = 0; i < plots; i++) {
      browser.eval("document.querySelectorAll('#plot-kinds button')[" + i + "].click()");
      assertEquals(List.of(), axe.violations(browser), "plot " + i);
    }
  }

  @Test
  void nothingIsWrongWhereAJobAsksNothing() {
    open(ReportFixture.bare(), 1300);
    assertEquals(List.of(), axe.violations(browser));
  }
}
