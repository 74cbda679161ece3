package org.scarpway.report;

import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.MapView;

/**
 * What a figure shows: the map with which a section of the report begins.
 *
 * @param answer whose key numbers stand above the map
 */
record MapFigure(String title, Answer answer, MapView map) {}
