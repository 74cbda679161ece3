package org.scarpway.report;

import com.samskivert.mustache.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.Map;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.stage.StageFailure;

/**
 * Writes the report as one HTML file that opens offline: it contains its images, and its content
 * security policy forbids any network request. The same data give the same bytes.
 */
public final class Report {
  /** A page longer than this is drawn again with smaller maps. */
  private static final int MOST_CHARS = 8_000_000;

  private static final int[] MAP_PIXELS = {1400, 1000, 700, 450};

  private Report() {}

  /**
   * Writes the report completely or not at all.
   *
   * @throws StageFailure if the file cannot be written
   */
  public static void write(Path indexHtml, ReportData data) {
    String html = html(data);
    AtomicFileWrite.write(indexHtml, part -> Files.writeString(part, html));
  }

  /** Returns the page itself. */
  static String html(ReportData data) {
    String html = "";
    for (int pixels : MAP_PIXELS) {
      html = render(Page.model(data, pixels));
      if (html.length() <= MOST_CHARS) {
        break;
      }
    }
    return html;
  }

  private static String render(Map<String, Object> model) {
    String script = resource("page.js");
    model.put("css", resource("page.css"));
    model.put("script", script);
    model.put("scriptDigest", sha256(script));
    return Mustache.compiler()
        .emptyStringIsFalse(true)
        .withLoader(name -> new StringReader(resource(name + ".html")))
        .compile(resource("page.html"))
        .execute(model);
  }

  private static String resource(String name) {
    try (InputStream in = Report.class.getResourceAsStream("/report/" + name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException("report/" + name + " is missing from the program", e);
    }
  }

  private static String sha256(String text) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return Base64.getEncoder().encodeToString(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("this Java has no SHA-256", e);
    }
  }
}
