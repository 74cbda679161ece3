package org.scarpway.config;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/** One value of a validated file with its location, from which the readers take their numbers. */
record Entry(YamlDoc doc, String pointer, String name, JsonNode node) {

  /** Returns the whole file as an entry. */
  static Entry of(YamlDoc doc) {
    return new Entry(doc, "", "", doc.root());
  }

  /** Returns a number without exponent or trailing zeros; other scalars unchanged. */
  static String scalar(JsonNode node) {
    if (!node.isNumber()) {
      return node.asText();
    }
    BigDecimal value =
        node.isIntegralNumber()
            ? new BigDecimal(node.bigIntegerValue())
            : new BigDecimal(Double.toString(node.doubleValue())).stripTrailingZeros();
    return Math.abs(value.precision() - value.scale()) > 20
        ? value.toString()
        : value.toPlainString();
  }

  Entry get(String key) {
    return new Entry(doc, YamlDoc.child(pointer, key), key, node.path(key));
  }

  boolean present() {
    return !node.isMissingNode() && !node.isNull();
  }

  boolean has(String key) {
    return get(key).present();
  }

  /** True if the value is present and neither it nor anything inside it violates the schema. */
  boolean sound() {
    return present() && doc.isSound(pointer);
  }

  /** Returns the text, or a number as text; null if absent. */
  String text() {
    return present() ? scalar(node) : null;
  }

  /** Returns the number, or null if absent. */
  Double number() {
    return present() ? Double.valueOf(node.doubleValue()) : null;
  }

  double number(String key) {
    return get(key).node.doubleValue();
  }

  int whole(String key) {
    return get(key).node.intValue();
  }

  boolean isText() {
    return node.isTextual();
  }

  boolean isMapping() {
    return node.isObject();
  }

  /** Returns the items of a list; empty if the value is not a list. */
  List<Entry> items() {
    List<Entry> all = new ArrayList<>();
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      all.add(new Entry(doc, pointer + "/" + i, Integer.toString(i), node.get(i)));
    }
    return all;
  }

  /** Returns the members of a mapping in the order of the file. */
  List<Entry> members() {
    List<Entry> all = new ArrayList<>();
    node.properties().forEach(e -> all.add(get(e.getKey())));
    return all;
  }

  SourceLocation at() {
    return doc.at(pointer);
  }

  SourceLocation keyAt() {
    return doc.keyAt(pointer);
  }
}
