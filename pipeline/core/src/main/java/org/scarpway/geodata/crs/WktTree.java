package org.scarpway.geodata.crs;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Coordinate reference system text (OGC 01-009, ISO 19162) as a tree: KEYWORD[part, part, ...],
 * where a part is a quoted text, a number or word kept as written, or another node.
 */
public final class WktTree {
  private static final int MAX_CHARS = 1 << 16;
  private static final int MAX_DEPTH = 32;

  private final String keyword;
  private final List<Object> parts;

  private WktTree(String keyword, List<Object> parts) {
    this.keyword = keyword;
    this.parts = parts;
  }

  /** A quoted text, distinguished from a number. */
  private record Quoted(String text) {}

  public static WktTree of(String keyword, Object... parts) {
    List<Object> list = new ArrayList<>();
    for (Object p : parts) {
      list.add(p instanceof String s ? new Quoted(s) : p);
    }
    return new WktTree(keyword, list);
  }

  /**
   * @throws IllegalArgumentException if the text is not WKT
   */
  public static WktTree parse(String wkt) {
    if (wkt.length() > MAX_CHARS) {
      throw new IllegalArgumentException("WKT text of " + wkt.length() + " characters");
    }
    Parser p = new Parser(wkt);
    WktTree tree = p.node(0);
    p.end();
    return tree;
  }

  /** The keyword of this node, in capitals. */
  public String keyword() {
    return keyword;
  }

  public List<WktTree> children() {
    List<WktTree> nodes = new ArrayList<>();
    for (Object p : parts) {
      if (p instanceof WktTree t) {
        nodes.add(t);
      }
    }
    return nodes;
  }

  /** The first child with one of these keywords, or null. */
  public WktTree first(Set<String> wanted) {
    for (WktTree t : children()) {
      if (wanted.contains(t.keyword)) {
        return t;
      }
    }
    return null;
  }

  public WktTree first(String wanted) {
    return first(Set.of(wanted));
  }

  /** The first child with the keyword; throws if there is none. */
  public WktTree require(String wanted) {
    WktTree t = first(wanted);
    if (t == null) {
      throw new IllegalArgumentException(keyword + " without " + wanted);
    }
    return t;
  }

  public String text(int i) {
    if (i < parts.size() && parts.get(i) instanceof Quoted q) {
      return q.text;
    }
    throw new IllegalArgumentException(keyword + " without a text");
  }

  /** The text, number or word at index {@code i} as written, or "" if there is none. */
  String word(int i) {
    Object p = i < parts.size() ? parts.get(i) : "";
    if (p instanceof Quoted q) {
      return q.text;
    }
    return p instanceof WktTree ? "" : p.toString();
  }

  public double number(int i) {
    String word = word(i);
    if (word.isEmpty() || parts.get(i) instanceof Quoted) {
      throw new IllegalArgumentException(keyword + " without a number");
    }
    try {
      return Double.parseDouble(word);
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(keyword + " needs a number, got '" + word + "'", e);
    }
  }

  /** A copy without nodes of that keyword, at any depth. */
  public WktTree without(String unwanted) {
    List<Object> kept = new ArrayList<>();
    for (Object p : parts) {
      if (!(p instanceof WktTree t)) {
        kept.add(p);
      } else if (!t.keyword.equals(unwanted)) {
        kept.add(t.without(unwanted));
      }
    }
    return new WktTree(keyword, kept);
  }

  @Override
  public String toString() {
    StringBuilder b = new StringBuilder(keyword).append('[');
    for (int i = 0; i < parts.size(); i++) {
      if (i > 0) {
        b.append(',');
      }
      Object p = parts.get(i);
      if (p instanceof Quoted q) {
        b.append('"').append(q.text.replace("\"", "\"\"")).append('"');
      } else if (p instanceof Double d && d == Math.rint(d) && Math.abs(d) < 1e15) {
        b.append(d.longValue());
      } else {
        b.append(p);
      }
    }
    return b.append(']').toString();
  }

  private static final class Parser {
    private final String s;
    private int at;

    Parser(String s) {
      this.s = s;
    }

    WktTree node(int depth) {
      if (depth > MAX_DEPTH) {
        throw wrong("nodes within nodes beyond " + MAX_DEPTH);
      }
      String keyword = word().toUpperCase(Locale.ROOT);
      char close = open();
      List<Object> parts = new ArrayList<>();
      do {
        space();
        if (at < s.length() && s.charAt(at) == '"') {
          parts.add(new Quoted(quoted()));
        } else {
          int start = at;
          String word = word();
          space();
          if (at < s.length() && (s.charAt(at) == '[' || s.charAt(at) == '(')) {
            at = start;
            parts.add(node(depth + 1));
          } else {
            parts.add(word);
          }
        }
        space();
      } while (take(','));
      if (!take(close)) {
        throw wrong("missing " + close);
      }
      return new WktTree(keyword, parts);
    }

    void end() {
      space();
      if (at < s.length()) {
        throw wrong("text after the end");
      }
    }

    private char open() {
      space();
      if (take('[')) {
        return ']';
      }
      if (take('(')) {
        return ')';
      }
      throw wrong("missing [");
    }

    private String word() {
      space();
      int start = at;
      while (at < s.length() && "[](),\" \t\r\n".indexOf(s.charAt(at)) < 0) {
        at++;
      }
      if (at == start) {
        throw wrong("a word or number is missing");
      }
      return s.substring(start, at);
    }

    private String quoted() {
      StringBuilder b = new StringBuilder();
      at++;
      while (at < s.length()) {
        char c = s.charAt(at++);
        if (c != '"') {
          b.append(c);
        } else if (at < s.length() && s.charAt(at) == '"') {
          b.append('"');
          at++;
        } else {
          return b.toString();
        }
      }
      throw wrong("a text without its closing quote");
    }

    private boolean take(char c) {
      if (at < s.length() && s.charAt(at) == c) {
        at++;
        return true;
      }
      return false;
    }

    private void space() {
      while (at < s.length() && Character.isWhitespace(s.charAt(at))) {
        at++;
      }
    }

    private IllegalArgumentException wrong(String what) {
      return new IllegalArgumentException("WKT: " + what + " at character " + at);
    }
  }
}
