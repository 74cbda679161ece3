package org.scarpway.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Workers;

/**
 * Parts of the map, made side by side. Their layers are in the order of the parts. A part that
 * rests on one stage alone is kept between runs, so that nothing of it is read again if the stage
 * did not run again.
 */
final class MapParts {
  /** Raised whenever the same results make another part. */
  private static final int VERSION = 2;

  private static final ObjectMapper JSON = new ObjectMapper();

  private final GridSpec spec;
  private final ContentStore store;
  private final List<Part> parts = new ArrayList<>();
  private final List<Runnable> tasks = new ArrayList<>();

  /**
   * @param store keeps parts and packed tiles between runs
   */
  MapParts(GridSpec spec, ContentStore store) {
    this.spec = spec;
    this.store = store;
  }

  /** The layers of one part. */
  final class Part {
    private final List<MapLayer> layers = new ArrayList<>();

    MapLayer add(MapLayer layer) {
      layers.add(layer.pack(store));
      return layer;
    }
  }

  /**
   * Adds a part.
   *
   * @param make adds its layers, on another thread
   */
  void add(Consumer<Part> make) {
    Part part = new Part();
    parts.add(part);
    tasks.add(() -> make.accept(part));
  }

  /**
   * Adds a part that may be kept.
   *
   * @param name of the part within the page, which its layers bear
   * @param stage digest of all that the part is made from; null if nobody knows
   * @param node receives what the page is told of the part
   * @param make adds its layers and fills the node, on another thread
   */
  void add(String name, String stage, ObjectNode node, Consumer<Part> make) {
    if (stage == null) {
      add(make);
      return;
    }
    String shape = spec.rows() + "x" + spec.cols();
    String key = String.join("-", "part", Integer.toString(VERSION), name, shape, stage);
    add(
        part -> {
          List<MapLayer> kept = read(key, node);
          if (kept != null) {
            part.layers.addAll(kept);
          } else {
            make.accept(part);
            write(key, node, part.layers);
          }
        });
  }

  private List<MapLayer> read(String key, ObjectNode node) {
    JsonNode kept = store.read(key, in -> JSON.readTree(in.readAllBytes()));
    if (kept == null) {
      return null;
    }
    List<MapLayer> layers = new ArrayList<>();
    for (JsonNode layer : kept.path("layers")) {
      MapLayer one = MapLayer.kept(layer, store);
      if (one == null) {
        return null;
      }
      layers.add(one);
    }
    node.removeAll();
    node.setAll((ObjectNode) kept.path("node"));
    return layers;
  }

  private void write(String key, ObjectNode node, List<MapLayer> layers) {
    ObjectNode all = JSON.createObjectNode();
    all.set("node", node);
    ArrayNode list = all.putArray("layers");
    layers.forEach(layer -> list.add(layer.toKeep()));
    String text = all.toString();
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    if (readsBack(text)) {
      store.write(key, bytes.length, out -> out.write(bytes));
    }
  }

  /** True if the text stands for the same text: a page drawn from it is the same. */
  private static boolean readsBack(String text) {
    try {
      return JSON.readTree(text).toString().equals(text);
    } catch (IOException e) {
      return false;
    }
  }

  /** Makes all parts and returns their layers. */
  List<MapLayer> made(Workers workers) {
    workers.all(tasks);
    return parts.stream().flatMap(part -> part.layers.stream()).toList();
  }
}
