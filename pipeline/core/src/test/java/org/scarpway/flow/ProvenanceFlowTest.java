package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a run says about where its products come from. */
class ProvenanceFlowTest {
  @TempDir static Path dir;
  private static Path run;

  @BeforeAll
  static void runOnce() throws IOException {
    Path job = SmallJob.write(dir.resolve("job.yaml"), "small", 10);
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    run = dir.resolve("out/small");
  }

  private static JsonNode json(String name) throws IOException {
    return new ObjectMapper().readTree(run.resolve(name).toFile());
  }

  /** Python's prov (Debian python3-prov) is an independent reader of PROV-JSON. */
  @Test
  void anIndependentLibraryReadsTheProvDocument() throws Exception {
    String script =
        """
        import sys, prov.model as m
        d = m.ProvDocument.deserialize(sys.argv[1], format='json')
        kinds = (m.ProvEntity, m.ProvActivity, m.ProvAgent, m.ProvUsage, m.ProvGeneration,
                 m.ProvAssociation, m.ProvCommunication)
        print(*[len(list(d.get_records(k))) for k in kinds])
        again = m.ProvDocument.deserialize(content=d.serialize(format='json'), format='json')
        assert again == d
        """;
    Flow.Outcome o = Flow.tool("/usr/bin/python3", "-c", script, run.resolve("prov.json")).ok();
    JsonNode prov = json("prov.json");
    StringBuilder want = new StringBuilder();
    for (String kind :
        new String[] {
          "entity",
          "activity",
          "agent",
          "used",
          "wasGeneratedBy",
          "wasAssociatedWith",
          "wasInformedBy"
        }) {
      assertTrue(prov.path(kind).size() > 0, kind);
      want.append(prov.path(kind).size()).append(' ');
    }
    assertEquals(want.toString().strip(), o.out().strip());
  }

  @Test
  void everyProductHasItsDigestAndEveryEdgeItsEnds() throws Exception {
    JsonNode prov = json("prov.json");
    Set<String> products = new HashSet<>();
    for (var e : prov.get("entity").properties()) {
      if (e.getKey().startsWith("out:")) {
        String name = e.getKey().substring(4);
        products.add(name);
        assertEquals(Flow.sha256(run.resolve(name)), e.getValue().get("sw:sha256").asText(), name);
      }
    }
    for (String name : Flow.files(run)) {
      boolean ofAStage =
          name.contains("/") && !name.startsWith("stac/") && !name.contains(".stage");
      assertEquals(ofAStage, products.contains(name), name);
    }
    for (JsonNode u : prov.get("used")) {
      assertTrue(prov.get("activity").has(u.get("prov:activity").asText()), u.toString());
      assertTrue(prov.get("entity").has(u.get("prov:entity").asText()), u.toString());
    }
    for (JsonNode g : prov.get("wasGeneratedBy")) {
      assertTrue(prov.get("activity").has(g.get("prov:activity").asText()), g.toString());
      assertTrue(prov.get("entity").has(g.get("prov:entity").asText()), g.toString());
    }
  }

  @Test
  void runJsonTellsSettingsWithOriginPeakMemoryAndWhatEachStageTook() throws Exception {
    JsonNode said = json("run.json");
    boolean given = false;
    boolean byDefault = false;
    for (JsonNode s : said.get("settings")) {
      given |= s.get("origin").asText().contains("job.yaml:");
      byDefault |= s.get("origin").asText().equals("default");
    }
    assertTrue(given && byDefault, said.get("settings").toString());
    assertTrue(said.get("peak_heap_mb").asLong() > 0);
    assertTrue(said.get("heap_limit_mb").asLong() >= said.get("peak_heap_mb").asLong());
    for (JsonNode stage : said.get("stages")) {
      assertTrue(stage.get("peak_heap_mb").asLong() > 0, stage.toString());
      assertEquals("computed", stage.get("from").asText());
    }
    assertFalse(said.get("inputs").isEmpty());
  }

  /**
   * A library that brings documents of any STAC version up to 1.1.0 (npm @radiantearth/stac-migrate
   * 2.1.0, by the maintainers of the specification) finds nothing to change: no version, no
   * extension that is named wrongly or left out, no field of an older layout.
   */
  @Test
  void anIndependentLibraryFindsStacUpToDate() throws Exception {
    String script =
        """
        const assert = require('assert'), fs = require('fs');
        const migrate = require(process.argv[1]);
        for (const file of process.argv.slice(2)) {
          const is = JSON.parse(fs.readFileSync(file));
          const copy = JSON.parse(JSON.stringify(is));
          assert.deepStrictEqual(migrate.stac(copy), is, file);
          // It does change what is wrong: else this would say nothing.
          const old = JSON.parse(JSON.stringify(is));
          old.stac_version = '1.0.0';
          assert.notDeepStrictEqual(migrate.stac(JSON.parse(JSON.stringify(old))), old, file);
        }
        console.log(process.argv.length - 2);
        """;
    List<Object> command = new ArrayList<>(List.of("node", "-e", script));
    command.add(Flow.DATA.resolve("stac-migrate.js"));
    List<String> files = Flow.files(run).stream().filter(f -> f.startsWith("stac/")).toList();
    files.forEach(f -> command.add(run.resolve(f)));
    Flow.Outcome o = Flow.tool(command.toArray()).ok();
    assertEquals(files.size(), Integer.parseInt(o.out().strip()));
    assertEquals(7, files.size());
  }

  /**
   * What STAC 1.1.0 requires of a catalogue and an item (item-spec and catalog-spec, from memory;
   * no registry here carries the published schemas).
   */
  @Test
  void theCatalogueHasWhatStacRequires() throws Exception {
    JsonNode catalogue = json("stac/catalog.json");
    assertEquals("Catalog", catalogue.get("type").asText());
    assertEquals("1.1.0", catalogue.get("stac_version").asText());
    assertTrue(catalogue.hasNonNull("id") && catalogue.hasNonNull("description"));
    int items = 0;
    for (JsonNode link : catalogue.get("links")) {
      assertTrue(link.hasNonNull("rel") && link.hasNonNull("href"), link.toString());
      if (!link.get("rel").asText().equals("item")) {
        continue;
      }
      items++;
      JsonNode item = json("stac/" + link.get("href").asText());
      assertEquals("Feature", item.get("type").asText());
      assertEquals("1.1.0", item.get("stac_version").asText());
      assertTrue(item.hasNonNull("id") && item.has("geometry") && item.has("links"));
      assertTrue(item.get("geometry").isNull() != item.has("bbox"), "bbox where there is geometry");
      assertTrue(
          item.get("properties").get("datetime").asText().matches("\\d{4}-\\d\\d-\\d\\dT.*Z"));
      for (JsonNode asset : item.get("assets")) {
        Path file = run.resolve("stac").resolve(asset.get("href").asText()).normalize();
        assertTrue(Files.isRegularFile(file), asset.toString());
      }
    }
    assertEquals(6, items);
  }
}
