package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;

/** Describes in words what a schema allows and what a value is. */
final class SchemaWords {
  private SchemaWords() {}

  /** Returns the type of a value, with the value itself if it is short. */
  static String kind(JsonNode node) {
    if (node.isNull() || node.isMissingNode()) {
      return "nothing";
    }
    if (node.isObject()) {
      return "a mapping";
    }
    if (node.isArray()) {
      return "a list of " + node.size();
    }
    if (node.isTextual()) {
      return "the text " + Problems.quote(node.asText());
    }
    return value(node);
  }

  /** Returns a number as people write it, or a text in quotes. */
  static String value(JsonNode node) {
    return node.isTextual() ? Problems.quote(node.asText()) : Entry.scalar(node);
  }

  /** Returns what is allowed: type, range, and the schema's own description. */
  static String expected(JsonNode schema) {
    List<String> parts = new ArrayList<>();
    if (schema.has("enum")) {
      parts.add(choices(schema));
    } else if (schema.has("const")) {
      parts.add(value(schema.get("const")));
    } else {
      String kinds = kinds(schema);
      if (!kinds.isEmpty()) {
        parts.add(kinds);
      }
      String range = range(schema);
      if (!range.isEmpty()) {
        parts.add(kinds.isEmpty() ? range.replaceFirst("^of ", "") : range);
      }
    }
    String said = String.join(" ", parts);
    String description = schema.path("description").asText();
    if (description.isEmpty()) {
      return said.isEmpty() ? "another value" : said;
    }
    return said.isEmpty() ? lowerFirst(description) : said + " (" + lowerFirst(description) + ")";
  }

  /**
   * Describes one of the two forms of a value: the keys that a mapping must have, or the kind and
   * range of anything else.
   *
   * @param owner schema with both forms, told apart by its {@code if} on the type
   * @param then true for the form of that type, false for the one of the others
   */
  static String form(JsonNode form, JsonNode owner, boolean then) {
    String chosen = owner.path("if").path("type").asText();
    List<String> kinds = new ArrayList<>();
    for (JsonNode type : owner.path("type")) {
      if (type.asText().equals(chosen) == then) {
        kinds.add(kindName(type.asText()));
      }
    }
    List<String> keys = new ArrayList<>();
    form.path("required").forEach(k -> keys.add(k.asText() + ": ..."));
    String said = keys.isEmpty() ? String.join(" or ", kinds) : "{" + String.join(", ", keys) + "}";
    String range = range(form);
    String description = form.path("description").asText();
    return said
        + (range.isEmpty() ? "" : " " + range)
        + (description.isEmpty() ? "" : " (" + lowerFirst(description) + ")");
  }

  static List<String> options(JsonNode schema) {
    List<String> all = new ArrayList<>();
    schema.path("enum").forEach(e -> all.add(e.asText()));
    return all;
  }

  private static String choices(JsonNode schema) {
    return String.join(" | ", options(schema));
  }

  private static String kinds(JsonNode schema) {
    List<String> kinds = new ArrayList<>();
    JsonNode type = schema.path("type");
    if (type.isTextual()) {
      kinds.add(kindName(type.asText()));
    }
    type.forEach(t -> kinds.add(kindName(t.asText())));
    return String.join(" or ", kinds);
  }

  private static String kindName(String type) {
    return switch (type) {
      case "string" -> "text";
      case "number" -> "a number";
      case "integer" -> "a whole number";
      case "boolean" -> "true or false";
      case "array" -> "a list";
      case "object" -> "a mapping";
      default -> type;
    };
  }

  /** Returns the range of a number as an interval, or the bounds on a list or text. */
  static String range(JsonNode schema) {
    boolean low = schema.has("minimum") || schema.has("exclusiveMinimum");
    boolean high = schema.has("maximum") || schema.has("exclusiveMaximum");
    if (low || high) {
      String left =
          schema.has("minimum")
              ? "[" + value(schema.get("minimum"))
              : low ? "(" + value(schema.get("exclusiveMinimum")) : "(-infinity";
      String right =
          schema.has("maximum")
              ? value(schema.get("maximum")) + "]"
              : high ? value(schema.get("exclusiveMaximum")) + ")" : "infinity)";
      return "in " + left + ", " + right;
    }
    String items = counts(schema, "minItems", "maxItems", " entries");
    return items.isEmpty() ? counts(schema, "minLength", "maxLength", " characters") : items;
  }

  private static String counts(JsonNode schema, String min, String max, String what) {
    if (!schema.has(min) && !schema.has(max)) {
      return "";
    }
    if (min.equals("minLength") && schema.path(min).asInt() == 1 && !schema.has(max)) {
      return "";
    }
    int least = schema.path(min).asInt(0);
    int most = schema.path(max).asInt(Integer.MAX_VALUE);
    if (least == most) {
      return "of " + least + what;
    }
    if (most == Integer.MAX_VALUE) {
      return "of at least " + least + (least == 1 ? what.replace("ies", "y") : what);
    }
    return "of " + least + " to " + most + what;
  }

  private static String lowerFirst(String text) {
    boolean acronym = text.length() > 1 && !Character.isLowerCase(text.charAt(1));
    boolean word = text.length() > 1 && text.charAt(1) == ' ';
    return acronym && !word ? text : Character.toLowerCase(text.charAt(0)) + text.substring(1);
  }
}
