package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/**
 * A YAML file as plain data, with the place of every value and key by JSON Pointer, and the
 * pointers at which something was found wrong.
 */
final class YamlDoc {
  /** Origin of a value that no file gives. */
  static final String DEFAULT = "default";

  private final String shownName;
  private final ObjectNode root;
  private final Map<String, SourceLocation> values;
  private final Map<String, SourceLocation> keys;
  private final Set<String> unsound = new HashSet<>();

  YamlDoc(
      String shownName,
      ObjectNode root,
      Map<String, SourceLocation> values,
      Map<String, SourceLocation> keys) {
    this.shownName = shownName;
    this.root = root;
    this.values = values;
    this.keys = keys;
  }

  /** The same content, to be changed without touching this one. */
  YamlDoc copy() {
    YamlDoc c = new YamlDoc(shownName, root.deepCopy(), new HashMap<>(values), new HashMap<>(keys));
    c.unsound.addAll(unsound);
    return c;
  }

  String shownName() {
    return shownName;
  }

  ObjectNode root() {
    return root;
  }

  JsonNode node(String pointer) {
    return root.at(pointer);
  }

  /** Where the value is, or the nearest value around it. */
  SourceLocation at(String pointer) {
    for (String p = pointer; !p.isEmpty(); p = p.substring(0, p.lastIndexOf('/'))) {
      SourceLocation at = values.get(p);
      if (at != null) {
        return at;
      }
    }
    return values.getOrDefault("", SourceLocation.file(shownName));
  }

  /** Where the key of the value is, or the value where it has none. */
  SourceLocation keyAt(String pointer) {
    SourceLocation at = keys.get(pointer);
    return at != null ? at : at(pointer);
  }

  /** Where the value was given: file:line:column, --set, or default. */
  String origin(String pointer) {
    SourceLocation at = values.get(pointer);
    return at == null ? DEFAULT : at.origin();
  }

  /** Notes that the value and all below it now come from elsewhere. */
  void replacePlaces(String pointer, SourceLocation at, JsonNode value) {
    values.keySet().removeIf(p -> p.equals(pointer) || p.startsWith(pointer + "/"));
    keys.keySet().removeIf(p -> p.equals(pointer) || p.startsWith(pointer + "/"));
    mark(pointer, at, value);
  }

  private void mark(String pointer, SourceLocation at, JsonNode value) {
    values.put(pointer, at);
    keys.put(pointer, at);
    value.properties().forEach(e -> mark(child(pointer, e.getKey()), at, e.getValue()));
    for (int i = 0; value.isArray() && i < value.size(); i++) {
      mark(pointer + "/" + i, at, value.get(i));
    }
  }

  void markUnsound(String pointer) {
    unsound.add(pointer);
  }

  /** Nothing was found wrong with the value or with anything inside it. */
  boolean isSound(String pointer) {
    return unsound.stream().noneMatch(p -> p.equals(pointer) || p.startsWith(pointer + "/"));
  }

  /** Pointer of a member, escaped as RFC 6901 asks. */
  static String child(String pointer, String key) {
    return pointer + "/" + key.replace("~", "~0").replace("/", "~1");
  }
}
