package org.scarpway.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.TilePack.Halving;
import org.scarpway.stage.ContentStore;

/** One layer of the map: its tiles, and what its numbers and colours mean. */
final class MapLayer {
  /** How a quantity is rounded to the steps of its layer: never towards what looks safer. */
  enum Rounded {
    UP,
    DOWN,
    NEAREST
  }

  private static final String STEPS = "steps";

  final String id;

  /** Set by {@link #pack}. */
  TilePack tiles;

  /** The larger, the later this layer loses cells where the page would be too large. */
  final int worth;

  private final ObjectNode about;
  private final GridSpec spec;
  private final Halving halving;
  private char[] cells;

  /** Under which the tiles are kept; null if nothing is. */
  private String key;

  private MapLayer(
      String id, GridSpec spec, char[] cells, Halving halving, int worth, ObjectNode about) {
    this.id = id;
    this.spec = spec;
    this.cells = cells;
    this.halving = halving;
    this.worth = worth;
    this.about = about;
    about.put("id", id);
  }

  /**
   * Packs the tiles; the cells are not needed any more.
   *
   * @param store keeps packed tiles between runs
   */
  MapLayer pack(ContentStore store) {
    if (store.keeps((long) Character.BYTES * cells.length)) {
      key = KeptTiles.key(spec, cells, halving);
      tiles = KeptTiles.of(key, spec, cells, halving, store);
    } else {
      tiles = new TilePack(spec, cells, halving);
    }
    cells = null;
    return this;
  }

  /** Returns all but the tiles, which are kept by themselves. */
  ObjectNode toKeep() {
    ObjectNode all = JsonNodeFactory.instance.objectNode();
    all.put("id", id).put("worth", worth).put("tiles", key).set("about", about.deepCopy());
    return all;
  }

  /** Returns a layer as {@link #toKeep} told it; null if its tiles are not kept any more. */
  static MapLayer kept(JsonNode all, ContentStore store) {
    MapLayer layer =
        new MapLayer(
            all.path("id").asText(),
            null,
            null,
            Halving.NONE,
            all.path("worth").asInt(),
            (ObjectNode) all.path("about"));
    layer.tiles = KeptTiles.of(all.path("tiles").asText(), store);
    return layer.tiles == null ? null : layer;
  }

  /**
   * Begins what is told of a layer.
   *
   * @param group ground, or the kind and number of what it belongs to, such as vehicle 0
   */
  static ObjectNode group(String group) {
    return JsonNodeFactory.instance.objectNode().put("group", group);
  }

  /** A layer of classes; those that occur enter its key. */
  static MapLayer classes(
      String id,
      String title,
      ByteGrid grid,
      List<ClassStyle> styles,
      Halving halving,
      int worth,
      ObjectNode about) {
    byte[] codes = grid.values();
    char[] cells = new char[codes.length];
    boolean[] occurs = new boolean[256];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (char) (codes[i] & 0xFF);
      occurs[cells[i]] = true;
    }
    about.put("title", title).put("look", "classes");
    ArrayNode list = about.putArray("classes");
    for (ClassStyle s : styles) {
      if (!occurs[s.code()]) {
        continue;
      }
      ObjectNode c = list.addObject();
      c.put("code", s.code()).put("name", s.label());
      c.put("colour", String.format(Locale.ROOT, "#%06x", s.rgb()));
      c.put("alpha", s.alpha()).put("pattern", s.pattern().name());
    }
    return new MapLayer(id, grid.spec(), cells, halving, worth, about);
  }

  /**
   * A layer of a quantity.
   *
   * @param factor from the grid's unit to that of the layer
   * @param step of the layer's numbers, in its unit
   * @param high end of the colour scale, which begins at {@code low}; NaN leaves it to the values
   */
  static MapLayer quantity(
      String id,
      String title,
      String unit,
      FloatGrid grid,
      double factor,
      double step,
      Rounded rounded,
      double low,
      double high,
      int worth,
      ObjectNode about) {
    float[] v = grid.values();
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (float x : v) {
      if (Float.isFinite(x)) {
        least = Math.min(least, x * factor);
        most = Math.max(most, x * factor);
      }
    }
    boolean empty = most < least;
    // Number 1 is one step below the least value, so that rounding down has room.
    double from = empty ? 0 : step * (Math.floor(least / step) - 2);
    double steps = empty ? step : step * Math.max(1, Math.ceil((most - from) / step / 65_000));
    char[] cells = new char[v.length];
    for (int i = 0; i < cells.length; i++) {
      if (Float.isFinite(v[i])) {
        double at = (v[i] * factor - from) / steps;
        cells[i] =
            (char)
                switch (rounded) {
                  case UP -> Math.ceil(at - 1e-9);
                  case DOWN -> Math.floor(at + 1e-9);
                  case NEAREST -> Math.rint(at);
                };
      }
    }
    about.put("title", title).put("look", "scale").put("unit", unit);
    about.put("from", from).put("step", steps).put("rounded", rounded.name());
    about.put("digits", Math.max(0, (int) Math.ceil(-Math.log10(steps) - 1e-9)));
    about.put("low", low).put("high", Double.isNaN(high) ? round(most, low) : high);
    Halving halving =
        switch (rounded) {
          case UP -> Halving.AT_MOST;
          case DOWN -> Halving.AT_LEAST;
          case NEAREST -> Halving.MEAN;
        };
    return new MapLayer(id, grid.spec(), cells, halving, worth, about);
  }

  /** Shade of the relief, 0 to 1; negative where there is no elevation. */
  static MapLayer relief(String title, FloatGrid shade01, int worth, ObjectNode about) {
    char[] cells = new char[shade01.values().length];
    for (int i = 0; i < cells.length; i++) {
      float s = shade01.values()[i];
      cells[i] = (char) (s < 0 ? 0 : 1 + Math.min(31, (int) (s * 32)));
    }
    about.put("title", title).put("look", "relief");
    return new MapLayer("relief", shade01.spec(), cells, Halving.MEAN, worth, about);
  }

  /** Steps of ways, which are never drawn as a picture. */
  static MapLayer steps(String id, ByteGrid grid) {
    char[] cells = new char[grid.values().length];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (char) (grid.values()[i] & 0xFF);
    }
    ObjectNode about = group("none");
    about.put("look", STEPS);
    return new MapLayer(id, grid.spec(), cells, Halving.NONE, 6, about);
  }

  boolean isSteps() {
    return about.path("look").asText().equals(STEPS);
  }

  private static double round(double most, double low) {
    if (!(most > low)) {
      return low + 1;
    }
    double step = Ticks.step(most - low, 10);
    return low + step * Math.ceil((most - low) / step);
  }

  /** Adds what the page must know to read the tiles. */
  ObjectNode about() {
    about.put("plain", tiles.plain).put("shrink", tiles.shrink());
    ArrayNode levels = about.putArray("levels");
    for (int k = 0; k < tiles.levels(); k++) {
      TilePack.Level level = tiles.level(k);
      if (level == null) {
        levels.addNull();
        continue;
      }
      ObjectNode l = levels.addObject();
      l.put("w", level.width).put("h", level.height).put("across", level.across);
      int offset = tiles.offset(k);
      ArrayNode at = l.putArray("at");
      for (int i = 0; i < level.at.length; i += 2) {
        at.add(offset + level.at[i]).add(level.at[i + 1]);
      }
    }
    return about;
  }
}
