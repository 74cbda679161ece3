package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The schemas are valid and document every key. */
class SchemaTest {
  private static final Set<String> KEYWORDS =
      Set.of(
          "$schema",
          "$id",
          "$ref",
          "$defs",
          "title",
          "description",
          "type",
          "properties",
          "required",
          "additionalProperties",
          "items",
          "enum",
          "const",
          "default",
          "pattern",
          "minimum",
          "maximum",
          "exclusiveMinimum",
          "exclusiveMaximum",
          "minItems",
          "maxItems",
          "minLength",
          "maxLength",
          "minProperties",
          "maxProperties",
          "if",
          "then",
          "else");

  private static JsonNode load(String kind) throws Exception {
    try (InputStream in =
        SchemaTest.class.getResourceAsStream("/schema/" + kind + ".schema.json")) {
      return new ObjectMapper().readTree(in);
    }
  }

  /** Nothing may be as large, or as close to zero, as a computer can write it. */
  @ParameterizedTest
  @ValueSource(strings = {"job", "vehicle", "soil", "walker", "body"})
  void everyNumberHasBoundsThatMeanSomething(String kind) throws Exception {
    List<String> open = new ArrayList<>();
    findOpen(load(kind), kind, open);
    assertEquals(List.of(), open);
  }

  private static void findOpen(JsonNode node, String path, List<String> open) {
    String type = node.path("type").asText();
    boolean low = node.has("minimum") || node.has("exclusiveMinimum");
    boolean high = node.has("maximum") || node.has("exclusiveMaximum");
    boolean number = type.equals("number") || type.equals("integer");
    // "if": {"type": "number"} only asks.
    if ((number && !path.endsWith("/if") && !(low && high)) || low != high) {
      open.add(path + " has no bound on one side");
    }
    if (node.has("exclusiveMinimum") && node.get("exclusiveMinimum").asDouble() == 0) {
      open.add(path + " may come as close to zero as it likes");
    }
    node.properties().forEach(e -> findOpen(e.getValue(), path + "/" + e.getKey(), open));
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      findOpen(node.get(i), path + "/" + i, open);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"job", "vehicle", "soil", "walker", "body"})
  void obeysTheMetaSchema(String kind) throws Exception {
    String meta = SpecificationVersion.DRAFT_2020_12.getDialectId();
    var schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(SchemaLocation.of(meta));
    assertEquals(List.of(), schema.validate(load(kind)));
    JsonNode broken = new ObjectMapper().readTree("{\"type\": 5, \"minimum\": \"x\"}");
    assertFalse(schema.validate(broken).isEmpty(), "the meta-schema check can fail");
  }

  @ParameterizedTest
  @ValueSource(strings = {"job", "vehicle", "soil", "walker", "body"})
  void everyKeyIsDescribedWithItsUnit(String kind) throws Exception {
    List<String> bad = new ArrayList<>();
    walk(load(kind), "#", bad);
    assertEquals(List.of(), bad);
  }

  private static void walk(JsonNode schema, String where, List<String> bad) {
    for (var e : schema.properties()) {
      if (!KEYWORDS.contains(e.getKey())) {
        bad.add(where + " uses a keyword that no message covers: " + e.getKey());
      }
    }
    if (schema.path("properties").isObject() && !closed(schema)) {
      bad.add(where + " lets unknown keys pass");
    }
    schema
        .path("properties")
        .properties()
        .forEach(
            e -> {
              String at = where + "/" + e.getKey();
              String text = e.getValue().path("description").asText();
              if (text.isEmpty()) {
                bad.add(at + " has no description");
              }
              unit(e.getKey(), text, at, bad);
              walk(e.getValue(), at, bad);
            });
    for (String inner : new String[] {"items", "then", "else", "additionalProperties"}) {
      if (schema.path(inner).isObject()) {
        walk(schema.get(inner), where + "/" + inner, bad);
      }
    }
    schema.path("$defs").properties().forEach(e -> walk(e.getValue(), "#" + e.getKey(), bad));
  }

  private static boolean closed(JsonNode schema) {
    JsonNode more = schema.path("additionalProperties");
    return more.isBoolean() && !more.asBoolean();
  }

  private static void unit(String key, String text, String at, List<String> bad) {
    String word =
        key.endsWith("_ms2")
            ? "metres per second squared"
            : key.endsWith("_ms")
                ? "metres per second"
                : key.endsWith("_m")
                    ? "metres"
                    : key.endsWith("_deg")
                        ? "degrees"
                        : key.endsWith("_kg")
                            ? "kilograms"
                            : key.endsWith("_w")
                                ? "watts"
                                : key.endsWith("_kwh")
                                    ? "kilowatt hours"
                                    : key.endsWith("_h") ? "hours" : "";
    if (!text.contains(word)) {
      bad.add(at + " does not name its unit, " + word);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"job", "vehicle", "soil", "walker", "body"})
  void unionsAreWrittenSoThatMessagesNameOneForm(String kind) throws Exception {
    String text = load(kind).toString();
    for (String keyword : new String[] {"anyOf", "oneOf", "allOf", "not"}) {
      assertTrue(!text.contains("\"" + keyword + "\""), keyword);
    }
  }
}
