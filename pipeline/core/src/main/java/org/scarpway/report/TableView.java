package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/**
 * A table as the template shows it: the first column is the heading of each row, and columns of
 * numbers are right-aligned.
 */
final class TableView {
  private static final Pattern NUMBER = Pattern.compile("[-<>]*[0-9].*|" + Figures.NONE);

  final String caption;
  final boolean wide;
  private final List<String> titles;
  private final List<List<String>> texts = new ArrayList<>();
  private final List<String> swatches = new ArrayList<>();

  record Cell(String text, boolean number) {}

  /**
   * @param swatch data URI of a class sample before the heading, or null
   */
  record Row(String swatch, String head, List<Cell> cells) {}

  TableView(String caption, String... header) {
    this(caption, List.of(header));
  }

  TableView(String caption, List<String> header) {
    this.caption = caption;
    this.titles = List.copyOf(header);
    this.wide = header.size() > 5;
  }

  TableView row(String... row) {
    return row(null, List.of(row));
  }

  TableView row(String swatch, List<String> row) {
    texts.add(row);
    swatches.add(swatch);
    return this;
  }

  List<Cell> header() {
    List<Cell> cells = new ArrayList<>();
    for (int c = 0; c < titles.size(); c++) {
      cells.add(new Cell(titles.get(c), number(c)));
    }
    return cells;
  }

  List<Row> rows() {
    int columns = texts.stream().mapToInt(List::size).max().orElse(0);
    // The result depends on every row, so it is computed once per column and not for each cell.
    boolean[] numbers = new boolean[columns];
    for (int c = 0; c < columns; c++) {
      numbers[c] = number(c);
    }
    List<Row> rows = new ArrayList<>();
    for (int r = 0; r < texts.size(); r++) {
      List<String> row = texts.get(r);
      List<Cell> cells = new ArrayList<>();
      for (int c = 1; c < row.size(); c++) {
        cells.add(new Cell(row.get(c), numbers[c]));
      }
      rows.add(new Row(swatches.get(r), row.isEmpty() ? "" : row.get(0), cells));
    }
    return rows;
  }

  private boolean number(int column) {
    return column > 0
        && !texts.isEmpty()
        && texts.stream()
            .allMatch(row -> column < row.size() && NUMBER.matcher(row.get(column)).matches());
  }
}
