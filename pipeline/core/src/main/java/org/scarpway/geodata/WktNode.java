package org.scarpway.geodata;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.scarpway.stage.UserError;

/**
 * One {@code KEYWORD[...]} of a coordinate reference system text (OGC 01-009, ISO 19162): its
 * quoted texts, numbers and bare words in order, and the nodes inside it.
 */
final class WktNode {
  private static final int MAX_LENGTH = 100_000;
  private static final int MAX_DEPTH = 24;

  private final String keyword;
  private final List<String> words = new ArrayList<>();
  private final List<WktNode> nodes = new ArrayList<>();

  private WktNode(String keyword) {
    this.keyword = keyword.toUpperCase(Locale.ROOT);
  }

  String keyword() {
    return keyword;
  }

  /** The n-th text, number or bare word, or "" where there are fewer. */
  String word(int n) {
    return n < words.size() ? words.get(n) : "";
  }

  /** The n-th word as a number. */
  double number(int n) {
    try {
      return Double.parseDouble(word(n).trim());
    } catch (NumberFormatException e) {
      throw new UserError(
          "coordinate reference system text: "
              + keyword
              + " needs a number, got '"
              + word(n)
              + "'; assign a valid system to the file");
    }
  }

  List<WktNode> nodes() {
    return nodes;
  }

  /** The first node inside with one of these keywords, or null. */
  WktNode first(Set<String> keywords) {
    for (WktNode n : nodes) {
      if (keywords.contains(n.keyword)) {
        return n;
      }
    }
    return null;
  }

  WktNode first(String keyword) {
    return first(Set.of(keyword));
  }

  /** Reads one whole text. */
  static WktNode parse(String text) {
    if (text.length() > MAX_LENGTH) {
      throw new UserError(
          "coordinate reference system text: "
              + text.length()
              + " characters; expected at most "
              + MAX_LENGTH
              + "; assign a valid system to the file");
    }
    Reader reader = new Reader(text);
    WktNode root = reader.node(0);
    reader.skipBlanks();
    if (reader.at < text.length()) {
      throw reader.broken("text after the end");
    }
    return root;
  }

  private static final class Reader {
    private final String text;
    private int at;

    Reader(String text) {
      this.text = text;
    }

    WktNode node(int depth) {
      if (depth > MAX_DEPTH) {
        throw broken("brackets nested deeper than " + MAX_DEPTH);
      }
      skipBlanks();
      int start = at;
      while (at < text.length() && isWordPart(text.charAt(at))) {
        at++;
      }
      if (at == start || at >= text.length()) {
        throw broken("no keyword");
      }
      WktNode node = new WktNode(text.substring(start, at));
      skipBlanks();
      if (!take('[') && !take('(')) {
        throw broken("no bracket after " + node.keyword);
      }
      skipBlanks();
      if (take(']') || take(')')) {
        return node;
      }
      do {
        item(node, depth);
        skipBlanks();
      } while (take(','));
      if (!take(']') && !take(')')) {
        throw broken("no closing bracket");
      }
      return node;
    }

    private void item(WktNode node, int depth) {
      skipBlanks();
      if (take('"')) {
        node.words.add(quoted());
        return;
      }
      int start = at;
      while (at < text.length() && "[](),\"".indexOf(text.charAt(at)) < 0) {
        at++;
      }
      if (at < text.length() && (text.charAt(at) == '[' || text.charAt(at) == '(')) {
        at = start;
        node.nodes.add(node(depth + 1));
      } else {
        node.words.add(text.substring(start, at).trim());
      }
    }

    private String quoted() {
      StringBuilder s = new StringBuilder();
      while (at < text.length()) {
        char c = text.charAt(at++);
        if (c != '"') {
          s.append(c);
        } else if (at < text.length() && text.charAt(at) == '"') {
          s.append('"');
          at++;
        } else {
          return s.toString();
        }
      }
      throw broken("a quoted text without end");
    }

    private void skipBlanks() {
      while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
        at++;
      }
    }

    private boolean take(char c) {
      if (at < text.length() && text.charAt(at) == c) {
        at++;
        return true;
      }
      return false;
    }

    private static boolean isWordPart(char c) {
      return Character.isLetterOrDigit(c) || c == '_';
    }

    private UserError broken(String why) {
      return new UserError(
          "coordinate reference system text: "
              + why
              + " at character "
              + (at + 1)
              + "; expected OGC WKT; assign a valid system to the file");
    }
  }
}
