package org.scarpway.config;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import javax.xml.stream.Location;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.scarpway.config.Job.Place;
import org.scarpway.config.Job.TargetRow;

/**
 * Reads the waypoints of a GPX text (1.0 or 1.1) as targets: name, longitude and latitude in WGS
 * 84. Routes and tracks are left out.
 */
final class GpxTargets {
  private static final String KIND = "a GPX text with waypoints (wpt) that have a name";
  private static final int MOST_TEXT = 1 << 12;
  private static final Pattern DEGREES = Pattern.compile("[-+]?[0-9]{1,3}(\\.[0-9]{1,18})?");

  private final String shownName;
  private final Problems problems;
  private final XMLStreamReader xml;
  private int waypoints;

  private GpxTargets(String shownName, Problems problems, XMLStreamReader xml) {
    this.shownName = shownName;
    this.problems = problems;
    this.xml = xml;
  }

  /** True for a text that can only be XML, which no table of targets is. */
  static boolean looksLike(String text) {
    return text.stripLeading().startsWith("<");
  }

  /** Returns the targets; errors are added to {@code problems}. */
  static List<TargetRow> read(String text, String shownName, Problems problems) {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, true);
    try {
      XMLStreamReader xml = factory.createXMLStreamReader(new StringReader(text));
      try {
        return new GpxTargets(shownName, problems, xml).targets();
      } finally {
        xml.close();
      }
    } catch (XMLStreamException e) {
      problems.add(at(shownName, e.getLocation()), "not sound XML", KIND, "write the file again");
      return List.of();
    }
  }

  private List<TargetRow> targets() throws XMLStreamException {
    List<TargetRow> rows = new ArrayList<>();
    Set<String> names = new HashSet<>();
    int depth = 0;
    while (xml.hasNext()) {
      int event = xml.next();
      if (event == XMLStreamConstants.START_ELEMENT) {
        String name = xml.getLocalName();
        if (depth == 0 && !name.equals("gpx")) {
          fail(here(), "its outermost element is no gpx", "name another file");
          return rows;
        }
        if (depth == 1 && name.equals("wpt")) {
          if (rows.size() == TargetsReader.MAX_ROWS) {
            fail(here(), "more than " + TargetsReader.MAX_ROWS + " waypoints", "split the file");
            return rows;
          }
          TargetRow row = waypoint();
          if (row != null && isNew(row, names)) {
            rows.add(row);
          }
        } else {
          depth++;
        }
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        depth--;
      }
    }
    if (rows.isEmpty() && problems.isEmpty()) {
      fail(
          new SourceLocation(shownName, 1, 1),
          "no waypoint in it",
          "add wpt elements or drop targets");
    }
    return rows;
  }

  /** Reads one waypoint up to its end; null if it has an error. */
  private TargetRow waypoint() throws XMLStreamException {
    SourceLocation at = here();
    Double lon = degrees("lon", 180, at);
    Double lat = degrees("lat", 90, at);
    String name = "";
    int depth = 1;
    while (depth > 0) {
      int event = xml.next();
      if (event == XMLStreamConstants.START_ELEMENT) {
        if (depth == 1 && xml.getLocalName().equals("name")) {
          name = xml.getElementText().strip();
        } else {
          depth++;
        }
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        depth--;
      }
    }
    waypoints++;
    if (name.isEmpty()) {
      name = "waypoint-" + waypoints;
    }
    if (!PlaceNames.isFit(name)) {
      problems.add(
          at,
          "name " + Problems.quote(name.substring(0, Math.min(MOST_TEXT, name.length()))),
          PlaceNames.RULE,
          "rename it");
      return null;
    }
    if (lon == null || lat == null) {
      return null;
    }
    return new TargetRow(
        new Place(name, lon, lat, true, at.toString()), 1, 0, 0, Job.TargetVisit.ANY_TIME);
  }

  private Double degrees(String attribute, double most, SourceLocation at) {
    String text = xml.getAttributeValue(null, attribute);
    boolean number = text != null && DEGREES.matcher(text.strip()).matches();
    double v = number ? Double.parseDouble(text.strip()) : Double.NaN;
    if (!(Math.abs(v) <= most)) {
      fail(
          at,
          attribute + " is " + (text == null ? "missing" : Problems.quote(text)),
          "give degrees, -" + (int) most + " to " + (int) most);
      return null;
    }
    return v + 0.0;
  }

  private boolean isNew(TargetRow row, Set<String> names) {
    boolean isNew = names.add(row.place().name());
    if (!isNew) {
      fail(
          here(),
          "target " + Problems.quote(row.place().name()) + " is given twice",
          "rename one of them");
    }
    return isNew;
  }

  /** Line and column, since many programs write all waypoints into one line. */
  private SourceLocation here() {
    return at(shownName, xml.getLocation());
  }

  private static SourceLocation at(String shownName, Location l) {
    return l == null
        ? new SourceLocation(shownName, 1, 1)
        : new SourceLocation(
            shownName, Math.max(1, l.getLineNumber()), Math.max(1, l.getColumnNumber()));
  }

  private void fail(SourceLocation at, String what, String remedy) {
    problems.add(at, what, KIND, remedy);
  }
}
