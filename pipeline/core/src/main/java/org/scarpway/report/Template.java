package org.scarpway.report;

import com.samskivert.mustache.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.Map;

/** Fills the page templates, which contain their style sheet and script. */
final class Template {
  /** Parts of the page's script, each using only what is before it while it is read. */
  private static final List<String> SCRIPTS =
      List.of(
          "tiles", "paint", "marks", "hands", "view", "layers", "place", "along", "plots", "page",
          "board");

  private Template() {}

  static String render(String page, Map<String, Object> model) {
    StringBuilder parts = new StringBuilder("(() => {\n'use strict';\n");
    SCRIPTS.forEach(name -> parts.append(resource(name + ".js")));
    String script = parts.append("})();\n").toString();
    model.put("css", resource("page.css"));
    model.put("script", script);
    model.put("scripted", page.equals("page.html"));
    model.put("scriptDigest", sha256(script));
    return Mustache.compiler()
        .emptyStringIsFalse(true)
        .withLoader(name -> new StringReader(resource(name + ".html")))
        .compile(resource(page))
        .execute(model);
  }

  private static String resource(String name) {
    try (InputStream in = Template.class.getResourceAsStream("/report/" + name)) {
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
