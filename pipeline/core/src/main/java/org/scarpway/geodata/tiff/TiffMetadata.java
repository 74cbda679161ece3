package org.scarpway.geodata.tiff;

import java.io.StringReader;
import java.util.Map;
import java.util.TreeMap;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * Reads and writes the XML text of TIFF tag 42112, in which GDAL stores a band's scale, offset,
 * unit and description. Roles of band 1 are keys in lower case; further items keep their name.
 */
public final class TiffMetadata {
  private TiffMetadata() {}

  /** Parses the roles of band 1: scale, offset, unittype, description. */
  public static Map<String, String> roles(String xml) throws XMLStreamException {
    Map<String, String> found = new TreeMap<>();
    if (xml.isBlank()) {
      return found;
    }
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    XMLStreamReader r = factory.createXMLStreamReader(new StringReader(xml));
    try {
      while (r.hasNext()) {
        if (r.next() != XMLStreamConstants.START_ELEMENT || !r.getLocalName().equals("Item")) {
          continue;
        }
        String role = r.getAttributeValue(null, "role");
        String sample = r.getAttributeValue(null, "sample");
        if (role != null && "0".equals(sample)) {
          found.put(role, r.getElementText());
        }
      }
    } finally {
      r.close();
    }
    return found;
  }

  static String xml(BandInfo info) {
    StringBuilder b = new StringBuilder("<GDALMetadata>\n");
    for (Map.Entry<String, String> tag : info.tags().entrySet()) {
      item(b, tag.getKey(), tag.getValue(), null);
    }
    if (info.offset() != 0) {
      item(b, "OFFSET", Double.toString(info.offset()), "offset");
      item(b, "SCALE", "1", "scale");
    }
    if (!info.unit().isEmpty()) {
      item(b, "UNITTYPE", info.unit(), "unittype");
    }
    if (!info.description().isEmpty()) {
      item(b, "DESCRIPTION", info.description(), "description");
    }
    return b.append("</GDALMetadata>\n").toString();
  }

  private static void item(StringBuilder b, String name, String value, String role) {
    b.append("  <Item name=\"").append(escaped(name)).append("\" sample=\"0\"");
    if (role != null) {
      b.append(" role=\"").append(role).append('"');
    }
    b.append('>').append(escaped(value)).append("</Item>\n");
  }

  private static String escaped(String s) {
    return s.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
