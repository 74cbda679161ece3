package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.scarpway.stage.ContentStore;
import org.scarpway.stage.Workers;

/** Parts of the map, made side by side. Their layers are in the order of the parts. */
final class MapParts {
  private final ContentStore store;
  private final List<Part> parts = new ArrayList<>();
  private final List<Runnable> tasks = new ArrayList<>();

  /**
   * @param store keeps packed tiles between runs
   */
  MapParts(ContentStore store) {
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

  /** Makes all parts and returns their layers. */
  List<MapLayer> made(Workers workers) {
    workers.all(tasks);
    return parts.stream().flatMap(part -> part.layers.stream()).toList();
  }
}
