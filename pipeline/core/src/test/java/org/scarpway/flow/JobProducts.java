package org.scarpway.flow;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.GridSpec;

/** Whether the products of a finished job are all there, readable, and agree with each other. */
final class JobProducts {
  private static final RasterIo IO = RasterIos.best();
  private static final CSVFormat CSV =
      CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
  private static final List<String> GROUND =
      List.of("terrain/elevation.tif", "terrain/slope_deg.tif", "hazard/hazard.tif", "index.html");

  private final Path run;
  private final JsonNode job;
  private final List<String> faults = new ArrayList<>();
  private final Map<String, float[]> rasters = new HashMap<>();
  private GridSpec spec;

  private JobProducts(Path run, JsonNode job) {
    this.run = run;
    this.job = job;
  }

  /**
   * @param jobFile as JSON, which it is in these trials
   * @param all whether every question must be answered
   */
  static List<String> faults(Path run, Path jobFile, boolean all) throws IOException {
    JobProducts p = new JobProducts(run, new ObjectMapper().readTree(jobFile.toFile()));
    p.readable();
    if (p.faults.isEmpty()) {
      p.classes();
      for (JsonNode q : p.job.path("reach")) {
        if (all || p.answered("reach", q)) {
          new ReachProductsCheck(p, q).check();
        }
      }
      for (JsonNode q : p.job.path("corridors")) {
        if ((all && !p.hasNoWay(q)) || p.answered("corridor", q)) {
          new CorridorProductsCheck(p, q).check();
        }
      }
      for (JsonNode q : p.job.path("sorties")) {
        if (all || p.answered("sortie", q)) {
          new SortieProductsCheck(p, q, p.job.path("reserves")).check();
        }
      }
      if (all) {
        p.sites();
      }
    }
    return p.faults;
  }

  /** That there is no way is an answer, which has no products. */
  private boolean hasNoWay(JsonNode corridor) throws IOException {
    return new ObjectMapper()
        .readTree(run.resolve("run.json").toFile())
        .path("failed")
        .path("corridor/" + corridor.path("name").asText())
        .asText()
        .contains(": no way from '");
  }

  private boolean answered(String kind, JsonNode question) {
    return Files.isDirectory(run.resolve(kind).resolve(question.path("name").asText()));
  }

  void expect(boolean holds, String what, Object... args) {
    if (!holds) {
      faults.add(String.format(java.util.Locale.ROOT, what, args));
    }
  }

  float[] raster(String name) {
    float[] values = rasters.get(name);
    if (values == null) {
      expect(false, "%s is missing", name);
      return new float[spec.cells()];
    }
    return values;
  }

  GridSpec spec() {
    return spec;
  }

  List<CSVRecord> table(String name) throws IOException {
    Path file = run.resolve(name);
    if (!Files.exists(file)) {
      expect(false, "%s is missing", name);
      return List.of();
    }
    try (CSVParser csv = CSVParser.parse(file, StandardCharsets.UTF_8, CSV)) {
      return csv.getRecords();
    }
  }

  boolean has(String name) {
    return Files.exists(run.resolve(name));
  }

  /** A number of a table; NaN where the field is empty. */
  static double number(CSVRecord row, String column) {
    String text = row.get(column);
    return text.isEmpty() ? Double.NaN : Double.parseDouble(text);
  }

  private void readable() throws IOException {
    List<String> all = Flow.files(run);
    for (String name : GROUND) {
      expect(all.contains(name), "%s is missing", name);
    }
    for (String name : all) {
      Path file = run.resolve(name);
      if (file.getFileName().toString().startsWith(".")) {
        continue; // the program's own notes
      }
      if (name.endsWith(".tif")) {
        raster(name, file);
      } else if (name.endsWith(".json") || name.endsWith(".geojson")) {
        json(name, file);
      } else if (name.endsWith(".gpkg")) {
        byte[] head = new byte[15];
        try (var in = Files.newInputStream(file)) {
          expect(in.read(head) == 15, "%s is cut short", name);
        }
        expect(new String(head, StandardCharsets.US_ASCII).equals("SQLite format 3"), "%s", name);
      } else if (name.endsWith(".csv")) {
        table(name);
      }
    }
  }

  private void json(String name, Path file) throws IOException {
    try {
      new ObjectMapper().readTree(file.toFile());
    } catch (JsonProcessingException e) {
      expect(false, "%s is no JSON: %s", name, e.getOriginalMessage());
    }
  }

  private void raster(String name, Path file) {
    float[] values;
    if (IO.header(file).dataType().startsWith("Float")) {
      var grid = IO.readFloats(file);
      spec = grid.spec();
      values = grid.values();
    } else if (IO.header(file).dataType().matches("Byte|UInt8")) {
      byte[] bytes = IO.readBytes(file).values();
      values = new float[bytes.length];
      for (int i = 0; i < bytes.length; i++) {
        values[i] = bytes[i] & 255;
      }
    } else {
      int[] whole = IO.readInts(file).values();
      values = new float[whole.length];
      for (int i = 0; i < whole.length; i++) {
        values[i] = whole[i];
      }
    }
    int infinite = 0;
    for (float v : values) {
      infinite += Float.isInfinite(v) ? 1 : 0;
    }
    // Without rocks the free path has no end; where they bar all ways, the way around them.
    boolean may = name.endsWith("/mean_free_path_m.tif") || name.endsWith("/detour_factor.tif");
    expect(may || infinite == 0, "%s: %d infinite cells", name, infinite);
    rasters.put(name, values);
  }

  private void classes() throws IOException {
    float[] heightM = raster("terrain/elevation.tif");
    for (Map.Entry<String, float[]> e : rasters.entrySet()) {
      if (e.getKey().endsWith("/class.tif")) {
        int wrong = 0;
        for (int i = 0; i < heightM.length; i++) {
          float c = e.getValue()[i];
          boolean known = c == 0 || c == 1 || c == 2 || c == 3;
          wrong += known && !(Float.isNaN(heightM[i]) && (c == 1 || c == 2)) ? 0 : 1;
        }
        expect(
            wrong == 0, "%s: %d cells of no class or driveable without height", e.getKey(), wrong);
        slowByCause(e.getKey().replaceFirst("^mobility/(.*)/class.tif$", "$1"));
      }
    }
  }

  String vehicle(JsonNode question) {
    String file = job.path("vehicles").get(0).asText();
    return question.path("vehicle").asText(file.replace(".yaml", ""));
  }

  JsonNode vehicleFile(JsonNode question) throws IOException {
    Path folder = run.getParent().resolveSibling("job");
    return new ObjectMapper().readTree(folder.resolve(vehicle(question) + ".yaml").toFile());
  }

  /** By how much turning makes a corridor's line dearer (%), as the run notes it; 0 without. */
  double turningPct(String corridor) throws IOException {
    String notes = Files.readString(run.resolve(corridor + ".result.json"));
    Matcher m = Pattern.compile("\"extraPct\" ?: ?\"?([-+.eE0-9]+)").matcher(notes);
    return m.find() ? Double.parseDouble(m.group(1)) : 0;
  }

  /** Slow ground is slow for something, and no cause has more of it than there is. */
  private void slowByCause(String vehicle) throws IOException {
    double slow = 0;
    double byCauses = 0;
    for (CSVRecord r : table("mobility/" + vehicle + "/areas.csv")) {
      if (r.get("kind").equals("class") && r.get("name").equals("slow")) {
        slow = number(r, "cells");
      } else if (r.get("kind").equals("slow by cause")) {
        byCauses += number(r, "cells");
        expect(number(r, "cells") <= slow, "%s is slow for %s", vehicle, r.get("name"));
      }
    }
    expect(byCauses >= slow && (slow > 0 || byCauses == 0), "%s: slow for nothing", vehicle);
  }

  private void sites() throws IOException {
    JsonNode candidates = job.path("sites").path("candidates");
    if (!candidates.isEmpty()) {
      List<CSVRecord> rows = table("sites/ranking.csv");
      Set<String> notShown = new HashSet<>();
      try (Stream<Path> vehicles = Files.list(run.resolve("mobility"))) {
        for (Path vehicle : vehicles.toList()) {
          for (CSVRecord r : table("mobility/" + vehicle.getFileName() + "/areas.csv")) {
            notShown.add(r.get("kind").equals("not resolved") ? r.get("name") : "");
          }
        }
      }
      expect(rows.size() == candidates.size(), "ranking of %d sites", rows.size());
      for (CSVRecord row : rows) {
        double rank = number(row, "rank");
        for (String limit : row.get("limits_not_resolved").split("; ")) {
          expect(limit.isEmpty() || notShown.contains(limit), "%s is shown", limit);
        }
        expect(rank >= 1 && rank <= rows.size(), "rank %s", row.get("rank"));
        double p = number(row, "p_no_hazard");
        expect(!(p < 0 || p > 1), "p_no_hazard %s", row.get("p_no_hazard"));
        double share = number(row, "single_gap_pct");
        expect(!(share < 0 || share > 100), "single_gap_pct %s", row.get("single_gap_pct"));
      }
    }
  }
}
