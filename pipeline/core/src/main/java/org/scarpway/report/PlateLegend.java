package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleConsumer;
import org.scarpway.drawing.Surface;
import org.scarpway.drawing.Surface.Anchor;
import org.scarpway.drawing.Surface.Box;
import org.scarpway.drawing.Surface.Hand;
import org.scarpway.drawing.Surface.Stroke;
import org.scarpway.report.Section.Line;
import org.scarpway.report.Section.MapView;

/** The legend of a printed map, in the largest letters for which its room suffices. */
final class PlateLegend {
  private static final double SAMPLE = 8;
  private static final double LARGEST = 2.7;
  private static final double SMALLER = 0.95;

  private final MapView map;
  private final List<String> symbols;
  private final boolean keepOut;
  private final boolean ellipses;
  private final PrintPage page;
  private final List<String> notes = new ArrayList<>();

  PlateLegend(MapView map, List<String> symbols, PrintPage page, PlateGround ground) {
    this.map = map;
    this.symbols = symbols;
    this.keepOut = ground.hasKeepOut();
    this.ellipses = !ground.ellipses().isEmpty();
    this.page = page;
    notes.add(map.layer().legend().note());
    notes.add(map.caption());
    notes.add("Solid grid: kilometres of the map. White ground: no elevation.");
    notes.addAll(ground.notes());
    notes.add(page.of() > 1 ? "Areas are those on all sheets." : "");
    notes.removeIf(String::isEmpty);
  }

  void draw(Surface on, Box room) {
    double size = LARGEST;
    while (new Pen(null, room, size).all() > room.y() + room.h()) {
      size *= SMALLER;
    }
    new Pen(on, room, size).all();
  }

  /** Goes down the legend; without a surface it measures only. */
  private final class Pen {
    private final Surface on;
    private final Box room;
    private final double size;
    private double y;

    Pen(Surface on, Box room, double size) {
      this.on = on;
      this.room = room;
      this.size = size;
      this.y = room.y();
    }

    /** Returns the height below the last line. */
    double all() {
      Layer.Legend legend = map.layer().legend();
      for (Layer.Entry e : legend.classes()) {
        String text = e.amount().isEmpty() ? e.label() : e.label() + ": " + e.amount();
        entry(text, at -> on.picture(e.sample(), new Box(room.x(), at - 0.8 * size, 7, size)));
      }
      if (legend.ramp() != null) {
        ramp(legend.ramp());
      }
      for (Line line : map.lines()) {
        sample(line.text(), MapStrokes.way(line.css()));
      }
      if (keepOut) {
        sample("keep-out ground", MapStrokes.KEEP_OUT);
      }
      if (ellipses) {
        sample("landing ellipse, 99 %", MapStrokes.ELLIPSE);
      }
      for (String symbol : symbols) {
        if (!MapSymbols.meaning(symbol).isEmpty()) {
          entry(
              MapSymbols.meaning(symbol),
              at -> MapSymbols.draw(on, symbol, room.x() + 3.5, at - 0.35 * size));
        }
      }
      y += 0.5 * size;
      block(notes, 0, 0.88 * size);
      if (page.of() > 1) {
        sheets();
      }
      return y;
    }

    private void sample(String text, Stroke stroke) {
      entry(
          text,
          at -> {
            double middle = at - 0.35 * size;
            on.lines(List.of(new double[] {room.x(), middle, room.x() + 7, middle}), stroke);
          });
    }

    private void entry(String text, DoubleConsumer drawing) {
      if (on != null) {
        drawing.accept(y + 0.95 * size);
      }
      block(List.of(text), SAMPLE, size);
      y += 0.35 * size;
    }

    private void block(List<String> paragraphs, double indent, double letters) {
      TextBlock block = TextBlock.of(paragraphs, room.w() - indent, letters);
      if (on != null) {
        block.draw(on, room.x() + indent, y);
      }
      y += block.heightMm();
    }

    private void ramp(Layer.Ramp ramp) {
      if (on != null) {
        on.picture(ramp.picture(), new Box(room.x(), y, room.w() - 6, 3));
        for (Layer.Mark m : ramp.marks()) {
          double x = room.x() + Double.parseDouble(m.at()) / 100 * (room.w() - 6);
          on.words(m.text(), x, y + 3.3 + size, 0, new Hand(size, Anchor.MIDDLE, false, false));
        }
      }
      y += 3.3 + 1.4 * size;
      block(List.of(map.layer().title() + " in " + ramp.unit()), 0, size);
      y += 0.35 * size;
    }

    /** Draws which of the sheets this is. */
    private void sheets() {
      int down = Math.floorDiv(page.of(), page.across());
      double side = Math.min(4, Math.min((room.w() - 2) / page.across(), 24.0 / down));
      block(List.of("Sheet " + page.number() + " of " + page.of() + ":"), 0, size);
      for (int i = 0; on != null && i < page.of(); i++) {
        int row = Math.floorDiv(i, page.across());
        Box b = new Box(room.x() + side * (i % page.across()), y + 0.5 + side * row, side, side);
        if (i + 1 == page.number()) {
          on.fill(MapStrokes.outline(b), MapStrokes.INK);
        }
        on.lines(List.of(MapStrokes.outline(b)), new Stroke(MapStrokes.INK, 0.2));
      }
      y += 1 + side * down;
    }
  }
}
