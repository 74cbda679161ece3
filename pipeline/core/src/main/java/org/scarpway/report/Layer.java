package org.scarpway.report;

import java.util.List;

/**
 * One thematic image that lies over the relief, with its legend.
 *
 * @param id of the image in the page, letters, digits and hyphens
 * @param alt what it shows, for those who cannot see it
 */
record Layer(String id, String title, String alt, String uri, Legend legend) {

  /** Either classes or a ramp; the other is empty or null. */
  record Legend(List<Entry> classes, Ramp ramp, String note) {
    Legend {
      classes = List.copyOf(classes);
    }
  }

  /** A class with its sample and, where they are known, its area and share. */
  record Entry(String swatch, String label, String amount) {}

  /** A continuous scale with labelled values. */
  record Ramp(String bar, String unit, List<Mark> marks) {
    Ramp {
      marks = List.copyOf(marks);
    }
  }

  /** Text at a position along the scale in percent. */
  record Mark(String at, String text) {}
}
