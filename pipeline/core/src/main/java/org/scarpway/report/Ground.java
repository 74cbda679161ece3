package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;

/** The ground and page settings that all sections share. */
final class Ground {
  final ReportData data;
  final GridSpec spec;
  final PixelGrid pixels;
  final LayerFactory layers;
  final double groundM2;
  final double windowM2;
  final List<Layer> all = new ArrayList<>();

  Ground(ReportData data, int maxPixels) {
    this.data = data;
    this.spec = data.dem().heightM().spec();
    long cells = 0;
    for (float h : data.dem().heightM().values()) {
      if (!Float.isNaN(h)) {
        cells++;
      }
    }
    this.groundM2 = cells * spec.cellAreaM2();
    this.windowM2 = (double) spec.cells() * spec.cellAreaM2();
    this.layers = new LayerFactory(data.dem().heightM(), maxPixels, groundM2);
    this.pixels = layers.pixels;
  }

  private Ground(Ground whole) {
    this.data = whole.data;
    this.spec = whole.spec;
    this.pixels = whole.pixels;
    this.layers = whole.layers;
    this.groundM2 = whole.groundM2;
    this.windowM2 = whole.windowM2;
  }

  /** Returns the same with a list of layers of its own. */
  Ground part() {
    return new Ground(this);
  }

  /** Adds the layer to the main map as well. */
  Layer keep(Layer layer) {
    all.add(layer);
    return layer;
  }

  /** Returns labels of all places of the job. */
  MapLabels places() {
    return places(List.of());
  }

  /** Returns the same labels with further places, which are placed first. */
  MapLabels places(List<ReportData.Place> first) {
    MapLabels labels = new MapLabels(spec);
    first.forEach(p -> labels.add(p.xM(), p.yM(), symbol(p.kind()), p.name()));
    // Bases come first so that a crowd of targets cannot hide their names.
    for (ReportData.Kind kind : ReportData.Kind.values()) {
      for (ReportData.Place p : data.places()) {
        if (p.kind() == kind) {
          labels.add(p.xM(), p.yM(), symbol(kind), p.name());
        }
      }
    }
    return labels;
  }

  static String symbol(ReportData.Kind kind) {
    return switch (kind) {
      case BASE -> "base";
      case TARGET -> "target";
      case CANDIDATE -> "candidate";
      case FOUND -> "found";
    };
  }

  String lonLat(double xM, double yM) {
    String text = Figures.lonLat(data.lonLat().at(xM, yM));
    return text.isEmpty() ? Figures.NONE : text;
  }
}
