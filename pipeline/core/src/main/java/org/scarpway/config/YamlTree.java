package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Map;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/** Converts composed YAML nodes to JSON data and records the position of every key and value. */
final class YamlTree {
  static final int MAX_DEPTH = 24;

  static final int MAX_VALUES = 50_000;
  static final int MAX_TEXT = 4096;
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;
  private static final Pattern FINITE =
      Pattern.compile("[-+]?[0-9]+(\\.[0-9]*)?([eE][-+]?[0-9]+)?");

  private final Function<Mark, SourceLocation> place;
  private final Map<String, SourceLocation> values;
  private final Map<String, SourceLocation> keys;
  private final Problems problems;
  private int count;

  YamlTree(
      Function<Mark, SourceLocation> place,
      Map<String, SourceLocation> values,
      Map<String, SourceLocation> keys,
      Problems problems) {
    this.place = place;
    this.values = values;
    this.keys = keys;
    this.problems = problems;
  }

  /** Returns the data, or null if the file is refused as a whole. */
  JsonNode convert(Node node) {
    JsonNode root = convert(node, "", 0);
    return count > MAX_VALUES ? null : root;
  }

  private JsonNode convert(Node node, String pointer, int depth) {
    SourceLocation at = node.getStartMark().map(place).orElseThrow();
    values.put(pointer, at);
    if (++count > MAX_VALUES || depth > MAX_DEPTH) {
      if (count <= MAX_VALUES + 1) {
        problems.add(
            at,
            "aliases expand to too much",
            "at most " + MAX_VALUES + " values in " + MAX_DEPTH + " levels",
            "write the values out instead");
      }
      count = MAX_VALUES + 1;
      return JSON.nullNode();
    }
    if (node instanceof MappingNode mapping) {
      return mapping(mapping, pointer, depth);
    }
    if (node instanceof SequenceNode sequence) {
      ArrayNode array = JSON.arrayNode();
      for (Node item : sequence.getValue()) {
        array.add(convert(item, pointer + "/" + array.size(), depth + 1));
        if (count > MAX_VALUES) {
          break;
        }
      }
      return array;
    }
    return scalar((ScalarNode) node, at);
  }

  private JsonNode mapping(MappingNode mapping, String pointer, int depth) {
    ObjectNode object = JSON.objectNode();
    for (NodeTuple tuple : mapping.getValue()) {
      SourceLocation keyAt = tuple.getKeyNode().getStartMark().map(place).orElseThrow();
      if (!(tuple.getKeyNode() instanceof ScalarNode key) || key.getValue().isEmpty()) {
        problems.add(keyAt, "a key that is no word", "a word before the colon", "name the value");
        continue;
      }
      String name = key.getValue();
      String child = YamlDoc.child(pointer, name);
      if (object.has(name)) {
        problems.add(
            keyAt,
            "key " + Problems.quote(name) + " is given twice (first at " + keys.get(child) + ")",
            "every key once",
            "remove one of them");
        continue;
      }
      keys.put(child, keyAt);
      object.set(name, convert(tuple.getValueNode(), child, depth + 1));
      if (count > MAX_VALUES) {
        break;
      }
    }
    return object;
  }

  private JsonNode scalar(ScalarNode scalar, SourceLocation at) {
    String text = scalar.getValue();
    if (text.length() > MAX_TEXT) {
      problems.add(
          at, "a text of " + text.length() + " characters", "at most " + MAX_TEXT, "shorten it");
      return JSON.textNode(text.substring(0, 1));
    }
    Tag tag = scalar.getTag();
    if (tag.equals(Tag.NULL)) {
      return JSON.nullNode();
    }
    if (tag.equals(Tag.BOOL)) {
      return JSON.booleanNode(text.equals("true"));
    }
    if (tag.equals(Tag.INT) || tag.equals(Tag.FLOAT)) {
      return number(text);
    }
    return JSON.textNode(text);
  }

  private JsonNode number(String text) {
    if (text.matches("-?[0-9]{1,15}")) {
      return JSON.numberNode(Long.parseLong(text));
    }
    double value = FINITE.matcher(text).matches() ? Double.parseDouble(text) : Double.NaN;
    // YAML treats .nan, .inf and 1e999 as numbers, this program as text. Adding 0.0 turns -0.0 into
    // 0.0.
    return Double.isFinite(value) ? JSON.numberNode(value + 0.0) : JSON.textNode(text);
  }
}
