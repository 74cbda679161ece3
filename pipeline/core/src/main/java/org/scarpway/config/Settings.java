package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.scarpway.config.Job.Setting;

/** Every value in effect with its origin, by dotted key; entries of lists by their name. */
final class Settings {
  private final SortedMap<String, Setting> all = new TreeMap<>();

  void addAll(String prefix, YamlDoc doc) {
    add(prefix, "", doc.root(), doc);
  }

  /** Adds a setting that is determined by more than one file. */
  void add(String key, String value, String origin) {
    all.put(key, new Setting(key, value, origin));
  }

  /** Returns the settings in the order of their keys. */
  List<Setting> sorted() {
    return List.copyOf(all.values());
  }

  private void add(String key, String pointer, JsonNode node, YamlDoc doc) {
    if (node.isObject() && !node.isEmpty()) {
      node.properties()
          .forEach(
              e ->
                  add(
                      key.isEmpty() ? e.getKey() : key + "." + e.getKey(),
                      YamlDoc.child(pointer, e.getKey()),
                      e.getValue(),
                      doc));
    } else if (holdsMappings(node)) {
      for (int i = 0; i < node.size(); i++) {
        String name = node.get(i).path("name").asText(Integer.toString(i));
        add(key + "." + name, pointer + "/" + i, node.get(i), doc);
      }
    } else {
      all.put(key, new Setting(key, text(node), doc.origin(pointer)));
    }
  }

  private static boolean holdsMappings(JsonNode node) {
    return node.isArray() && !node.isEmpty() && node.get(0).isObject();
  }

  private static String text(JsonNode node) {
    if (node.isArray()) {
      List<String> items = new ArrayList<>();
      node.forEach(i -> items.add(text(i)));
      return "[" + String.join(", ", items) + "]";
    }
    return node.isObject() ? "{}" : Entry.scalar(node);
  }
}
