package org.scarpway.flow;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;

/** A text grid taken apart: its head in lines, its rows from the north. */
record TextGrid(TreeMap<String, String> head, List<String[]> rows) {

  static TextGrid of(String text) {
    TreeMap<String, String> head = new TreeMap<>();
    List<String[]> rows = new ArrayList<>();
    for (String line : text.lines().toList()) {
      String[] words = line.strip().split("\\s+");
      if (Character.isLetter(line.charAt(0))) {
        head.put(words[0], words[1]);
      } else {
        rows.add(words);
      }
    }
    return new TextGrid(head, rows);
  }

  /**
   * The text without some rows or columns.
   *
   * @param side 0 north, 1 south, 2 west, 3 east
   * @return null where too little would be left
   */
  String without(int side, int strip) {
    int height = rows.size();
    int width = rows.get(0).length;
    if ((side < 2 ? height : width) - strip < 5) {
      return null;
    }
    int top = side == 0 ? strip : 0;
    int bottom = side == 1 ? height - strip : height;
    int left = side == 2 ? strip : 0;
    int right = side == 3 ? width - strip : width;
    TreeMap<String, String> h = new TreeMap<>(head);
    double dx = Double.parseDouble(head.getOrDefault("dx", head.getOrDefault("cellsize", "0")));
    double dy = Double.parseDouble(head.getOrDefault("dy", head.getOrDefault("cellsize", "0")));
    h.put("ncols", Integer.toString(right - left));
    h.put("nrows", Integer.toString(bottom - top));
    h.merge("xllcorner", "", (old, none) -> Double.toString(Double.parseDouble(old) + left * dx));
    h.merge(
        "yllcorner",
        "",
        (old, none) -> Double.toString(Double.parseDouble(old) + (height - bottom) * dy));
    StringBuilder s = new StringBuilder();
    h.forEach((key, value) -> s.append(key).append(' ').append(value).append('\n'));
    for (String[] row : rows.subList(top, bottom)) {
      s.append(String.join(" ", List.of(row).subList(left, right))).append('\n');
    }
    return s.toString();
  }
}
