package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import com.networknt.schema.path.NodePath;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * One of the JSON Schemas (2020-12), one for each kind of file. Besides validating a file it
 * provides the defaults: an absent key that has a default is filled in, so that no default value is
 * hidden in code.
 *
 * <p>Where a value may take two forms the schemas use if/then/else on its type, never anyOf, so
 * that every error belongs to the form that was written.
 */
final class ConfigSchema {
  static final ConfigSchema JOB = load("job");
  static final ConfigSchema VEHICLE = load("vehicle");
  static final ConfigSchema SOIL = load("soil");
  static final ConfigSchema WALKER = load("walker");
  static final ConfigSchema BODY = load("body");

  private final JsonNode source;
  private final Schema schema;

  private ConfigSchema(JsonNode source) {
    this.source = source;
    this.schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(source);
  }

  private static ConfigSchema load(String kind) {
    String resource = "/schema/" + kind + ".schema.json";
    try (InputStream in = ConfigSchema.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("the program lacks its resource " + resource);
      }
      return new ConfigSchema(new ObjectMapper().readTree(in));
    } catch (IOException e) {
      throw new UncheckedIOException(resource, e);
    }
  }

  /** Reports every violation of the schema, then fills in the defaults. */
  void check(YamlDoc doc, Problems problems) {
    List<Error> errors = schema.validate(doc.root());
    Set<String> wrongKind = new HashSet<>();
    Set<String> misspelt = new HashSet<>();
    for (Error e : errors) {
      String pointer = pointer(e.getInstanceLocation());
      if (e.getKeyword().equals("type")) {
        wrongKind.add(pointer);
      } else if (e.getKeyword().equals("additionalProperties")) {
        misspelt.add(
            pointer + " " + SpellingSuggestion.to(e.getProperty(), names(parentSchema(e))));
      }
    }
    for (Error e : errors) {
      String pointer = pointer(e.getInstanceLocation());
      boolean follows =
          e.getKeyword().equals("required")
              ? misspelt.contains(pointer + " " + e.getProperty())
              : !e.getKeyword().equals("type") && wrongKind.contains(pointer);
      if (!follows) {
        report(e, pointer, doc, problems);
      }
      doc.markUnsound(pointer);
    }
    fill(source, doc.root());
  }

  private void report(Error e, String pointer, YamlDoc doc, Problems problems) {
    String keyword = e.getKeyword();
    JsonNode parent = parentSchema(e);
    JsonNode got = doc.node(pointer);
    String key = lastName(pointer);
    switch (keyword) {
      case "additionalProperties" -> {
        String unknown = e.getProperty();
        String inside = key.isEmpty() ? "" : " in " + key;
        problems.add(
            doc.keyAt(YamlDoc.child(pointer, unknown)),
            "unknown key " + Problems.quote(unknown) + inside,
            "a known key",
            remedy(unknown, names(parent), got));
      }
      case "required" -> {
        String missing = e.getProperty();
        JsonNode wanted = resolve(parent.path("properties").path(missing));
        problems.add(
            doc.keyAt(pointer),
            "key " + missing + " is missing" + (key.isEmpty() ? "" : " in " + key),
            SchemaWords.expected(wanted),
            "add " + missing);
      }
      case "type" ->
          problems.add(
              doc.at(pointer),
              key + " is " + SchemaWords.kind(got),
              SchemaWords.expected(parent),
              typeRemedy(parent, got));
      case "enum" -> {
        String other = otherForm(e);
        problems.add(
            doc.at(pointer),
            key + " is " + SchemaWords.value(got),
            SchemaWords.expected(parent) + (other.isEmpty() ? "" : ", or " + other),
            SpellingSuggestion.remedy(got.asText(), SchemaWords.options(parent)));
      }
      case "const" ->
          problems.add(
              doc.at(pointer),
              key + " is " + SchemaWords.kind(got),
              SchemaWords.expected(parent),
              "write " + key + ": " + parent.get("const").asText());
      case "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum" ->
          problems.add(
              doc.at(pointer),
              key + " = " + SchemaWords.value(got),
              SchemaWords.expected(parent),
              "change the value");
      case "pattern" ->
          problems.add(
              doc.at(pointer),
              key + " is " + SchemaWords.value(got),
              SchemaWords.expected(parent),
              "rewrite it");
      default ->
          problems.add(
              doc.at(pointer),
              key + " has " + size(got),
              SchemaWords.expected(parent),
              "add or remove what is amiss");
    }
  }

  private static String typeRemedy(JsonNode parent, JsonNode got) {
    String type = parent.path("type").asText();
    if (got.isNull()) {
      return "give it a value or remove the key";
    }
    if (type.equals("string") && got.isValueNode()) {
      boolean amount = parent.path("description").asText().contains("with its unit");
      return amount && got.isNumber() ? "add the unit" : "put it in quotes";
    }
    if ((type.equals("number") || type.equals("integer")) && got.isTextual()) {
      return "write a plain number; the unit belongs to the key";
    }
    return "rewrite it";
  }

  private static String size(JsonNode got) {
    if (got.isTextual()) {
      return got.asText().length() + " characters";
    }
    return got.size() + (got.size() == 1 ? " entry" : " entries");
  }

  /** Describes what else may stand where a word was expected; empty if nothing else may. */
  private String otherForm(Error e) {
    String at = pointer(e.getSchemaLocation().getFragment().getParent());
    boolean then = at.endsWith("/then");
    if (!then && !at.endsWith("/else")) {
      return "";
    }
    JsonNode owner = source.at(at.substring(0, at.lastIndexOf('/')));
    return SchemaWords.form(resolve(owner.path(then ? "else" : "then")), owner, !then);
  }

  /** Returns the schema that contains the keyword which failed. */
  private JsonNode parentSchema(Error e) {
    return source.at(pointer(e.getSchemaLocation().getFragment().getParent()));
  }

  /**
   * Returns a schema with its local reference resolved; keywords beside the reference take
   * precedence.
   */
  private JsonNode resolve(JsonNode node) {
    JsonNode ref = node.path("$ref");
    if (!ref.isTextual()) {
      return node;
    }
    ObjectNode merged = source.at(ref.asText().substring(1)).deepCopy();
    merged.setAll((ObjectNode) node.deepCopy());
    return merged;
  }

  /** Fills the defaults into the value wherever its type is the one that the schema describes. */
  private void fill(JsonNode schemaNode, JsonNode value) {
    JsonNode s = resolve(schemaNode);
    if (s.has("if")) {
      boolean then = s.get("if").path("type").asText().equals(typeName(value));
      fill(s.path(then ? "then" : "else"), value);
    }
    if (value instanceof ObjectNode object) {
      s.path("properties")
          .properties()
          .forEach(
              e -> {
                JsonNode def = resolve(e.getValue()).get("default");
                if (def != null && !object.has(e.getKey())) {
                  object.set(e.getKey(), def.deepCopy());
                }
                if (object.has(e.getKey())) {
                  fill(e.getValue(), object.get(e.getKey()));
                }
              });
    }
    if (value.isArray() && s.has("items")) {
      value.forEach(item -> fill(s.get("items"), item));
    }
  }

  private static String typeName(JsonNode value) {
    if (value.isObject()) {
      return "object";
    }
    if (value.isArray()) {
      return "array";
    }
    return value.isTextual() ? "string" : value.isNumber() ? "number" : "other";
  }

  /** Suggests the key that was meant, or lists those that are not used yet. */
  private static String remedy(String unknown, List<String> known, JsonNode got) {
    List<String> free = new ArrayList<>(known);
    got.fieldNames().forEachRemaining(free::remove);
    return SpellingSuggestion.remedy(
        unknown, SpellingSuggestion.to(unknown, known) == null ? free : known);
  }

  private static List<String> names(JsonNode schemaNode) {
    List<String> all = new ArrayList<>();
    schemaNode.path("properties").fieldNames().forEachRemaining(all::add);
    return all;
  }

  private static String lastName(String pointer) {
    String last = pointer.substring(pointer.lastIndexOf('/') + 1);
    if (last.matches("[0-9]+")) {
      String parent = lastName(pointer.substring(0, pointer.lastIndexOf('/')));
      return "entry " + (Integer.parseInt(last) + 1) + (parent.isEmpty() ? "" : " of " + parent);
    }
    String plain = last.replace("~1", "/").replace("~0", "~");
    return plain.matches("[A-Za-z0-9_.-]{0,64}") ? plain : Problems.quote(plain);
  }

  private static String pointer(NodePath path) {
    StringBuilder b = new StringBuilder();
    for (int i = 0; i < path.getNameCount(); i++) {
      String name = String.valueOf(path.getElement(i));
      b.append('/').append(name.replace("~", "~0").replace("/", "~1"));
    }
    return b.toString();
  }
}
