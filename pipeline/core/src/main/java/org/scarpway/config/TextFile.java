package org.scarpway.config;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.scarpway.stage.Reason;

/**
 * Reads a small text file, which must be regular, bounded in size, strictly UTF-8 and without
 * control characters.
 */
final class TextFile {
  static final int MAX_BYTES = 1 << 20;

  private TextFile() {}

  /**
   * Returns the text without its byte order mark, or null; errors are added to {@code problems}.
   */
  static String read(Path file, String shownName, Problems problems) {
    return read(file, shownName, MAX_BYTES, problems);
  }

  static String read(Path file, String shownName, int maxBytes, Problems problems) {
    SourceLocation whole = SourceLocation.file(shownName);
    if (!Files.exists(file)) {
      problems.add(whole, "no such file", "a readable file", "check its name and folder");
      return null;
    }
    if (!Files.isRegularFile(file)) {
      String kind = Files.isDirectory(file) ? "a folder" : "not a regular file";
      problems.add(whole, "it is " + kind, "a regular file", "name the file itself");
      return null;
    }
    byte[] bytes;
    try (InputStream in = Files.newInputStream(file)) {
      bytes = in.readNBytes(maxBytes + 1);
    } catch (IOException e) {
      problems.add(
          whole,
          "it cannot be read (" + Reason.of(e) + ")",
          "a readable file",
          "check its permissions and the disk");
      return null;
    }
    if (bytes.length > maxBytes) {
      problems.add(
          whole, "the file is too large", "at most " + maxBytes + " bytes", "name another file");
      return null;
    }
    return decode(bytes, shownName, problems);
  }

  private static String decode(byte[] bytes, String shownName, Problems problems) {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length + 1);
    CoderResult result = decoder.decode(in, out, true);
    String text = out.flip().toString();
    if (text.startsWith("\uFEFF")) {
      text = text.substring(1);
    }
    if (result.isError()) {
      problems.add(
          place(shownName, text, text.length()),
          "bytes that are not UTF-8",
          "text in UTF-8",
          "save the file as UTF-8");
      return null;
    }
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t' && c != '\u0085') {
        problems.add(
            place(shownName, text, i),
            String.format(java.util.Locale.ROOT, "control character U+%04X", (int) c),
            "plain text",
            "remove it; is this a text file?");
        return null;
      }
    }
    return text;
  }

  private static SourceLocation place(String shownName, String text, int index) {
    int line = 1;
    int lineStart = 0;
    for (int i = 0; i < index; i++) {
      if (text.charAt(i) == '\n') {
        line++;
        lineStart = i + 1;
      }
    }
    return new SourceLocation(shownName, line, index - lineStart + 1);
  }
}
