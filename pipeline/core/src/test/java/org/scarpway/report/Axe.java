package org.scarpway.report;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Judges how accessible a page is by axe-core (npm axe-core 4.14.1), which knows WCAG 2.2. */
public final class Axe {
  private final String source;

  public Axe() throws IOException {
    source = Files.readString(Path.of(System.getProperty("scarpway.data")).resolve("axe.js"));
  }

  /** Every violation on the page that is open, as impact, rule and place. */
  public List<String> violations(Browser browser) {
    browser.eval(source + ";0");
    JsonNode found =
        browser.eval(
            "axe.run(document, {resultTypes: ['violations']}).then(r => r.violations.flatMap(v =>"
                + " v.nodes.map(n => v.impact + ', ' + v.id + ': ' + n.target.join(' ') + ' '"
                + " + n.html.slice(0, 120))))");
    List<String> all = new ArrayList<>();
    found.forEach(v -> all.add(v.asText()));
    return all;
  }

  /** Number of rules that the page was held against. */
  int rulesHeld(Browser browser) {
    return browser.eval("axe.run(document).then(r => r.passes.length)").asInt();
  }
}
