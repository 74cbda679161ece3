package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/**
 * A YAML file as plain data, with the position of every value and key by JSON Pointer, and the
 * pointers at which errors were found.
 */
final class YamlDoc {
  /** Origin of a value that no file states. */
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

  /** Returns a copy that can be changed without affecting this document. */
  YamlDoc copy() {
    YamlDoc c = new YamlDoc(shownName, root.deepCopy(), new HashMap<>(values), new HashMap<>(keys));
    c.unsound.addAll(unsound);
    return c;
  }

  ObjectNode root() {
    return root;
  }

  JsonNode node(String pointer) {
    return root.at(pointer);
  }

  /** Returns the position of the value, or of the nearest value that encloses it. */
  SourceLocation at(String pointer) {
    for (String p = pointer; !p.isEmpty(); p = p.substring(0, p.lastIndexOf('/'))) {
      SourceLocation at = values.get(p);
      if (at != null) {
        return at;
      }
    }
    return values.getOrDefault("", SourceLocation.file(shownName));
  }

  /** Returns the position of the value's key, or of the value if it has none. */
  SourceLocation keyAt(String pointer) {
    SourceLocation at = keys.get(pointer);
    return at != null ? at : at(pointer);
  }

  /** Returns the origin of the value: file:line:column, --set, or default. */
  String origin(String pointer) {
    SourceLocation at = values.get(pointer);
    return at == null ? DEFAULT : at.origin();
  }

  /** Records that the value and all values inside it now come from elsewhere. */
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

  /** True if no error was found in the value or in anything inside it. */
  boolean isSound(String pointer) {
    return unsound.stream().noneMatch(p -> p.equals(pointer) || p.startsWith(pointer + "/"));
  }

  /** Returns the pointer of a member, escaped as RFC 6901 requires. */
  static String child(String pointer, String key) {
    return pointer + "/" + key.replace("~", "~0").replace("/", "~1");
  }
}
