package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * Applies values from the command line over those of the file: {@code dem.cell_size_m=10}, or
 * {@code reach.day-trip.home=none} where an entry of a list is given by name or by number from 0.
 * The value is YAML.
 */
final class Overrides {
  private Overrides() {}

  static void apply(YamlDoc doc, Map<String, String> overrides, Problems problems) {
    overrides.forEach((key, text) -> set(doc, key, text, problems));
  }

  private static void set(YamlDoc doc, String key, String text, Problems problems) {
    SourceLocation at = SourceLocation.option(Problems.quote(key).replace("'", ""));
    String[] steps = key.split("\\.", -1);
    JsonNode value = YamlReader.readValue(text, at, problems);
    if (value == null) {
      return;
    }
    JsonNode node = doc.root();
    String pointer = "";
    for (int i = 0; i < steps.length; i++) {
      boolean last = i == steps.length - 1;
      String step = steps[i];
      if (step.isEmpty()) {
        problems.add(
            at, "a key with an empty part", "key=value, parts joined by dots", "rewrite it");
        return;
      }
      if (node instanceof ArrayNode array) {
        int index = indexOf(array, step);
        if (index < 0) {
          problems.add(
              at,
              "no entry " + Problems.quote(step),
              "the name of an entry of the list, or its number from 0",
              SpellingSuggestion.remedy(step, entryNames(array)));
          return;
        }
        pointer = pointer + "/" + index;
        if (last) {
          array.set(index, value);
        } else {
          node = array.get(index);
        }
      } else if (node instanceof ObjectNode object) {
        pointer = YamlDoc.child(pointer, step);
        if (last) {
          object.set(step, value);
        } else {
          if (object.path(step).isMissingNode() || object.path(step).isNull()) {
            doc.replacePlaces(pointer, at, object.putObject(step));
          }
          node = object.get(step);
        }
      } else {
        problems.add(
            at,
            Problems.quote(steps[i - 1]) + " holds " + SchemaWords.kind(node),
            "a key of a mapping or an entry of a list",
            "shorten the key");
        return;
      }
    }
    doc.replacePlaces(pointer, at, value);
  }

  private static int indexOf(ArrayNode array, String step) {
    for (int i = 0; i < array.size(); i++) {
      if (array.get(i).path("name").asText().equals(step)) {
        return i;
      }
    }
    boolean number = step.matches("[0-9]{1,6}") && Integer.parseInt(step) < array.size();
    return number ? Integer.parseInt(step) : -1;
  }

  private static List<String> entryNames(ArrayNode array) {
    List<String> names = new ArrayList<>();
    for (int i = 0; i < array.size(); i++) {
      names.add(array.get(i).path("name").asText(Integer.toString(i)));
    }
    return names;
  }
}
