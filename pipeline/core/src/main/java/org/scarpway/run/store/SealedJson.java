package org.scarpway.run.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.HexFormat;
import org.scarpway.geodata.file.AtomicFileWrite;

/**
 * A JSON record that contains the digest of its own content, so that a changed record is not
 * accepted.
 */
public final class SealedJson {
  private static final String SEAL = "record_sha256";
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private SealedJson() {}

  public static void write(Path file, ObjectNode content) {
    ObjectNode sealed = content.deepCopy();
    sealed.put(SEAL, seal(content));
    AtomicFileWrite.write(
        file, part -> Files.writeString(part, JSON.writeValueAsString(sealed) + "\n"));
  }

  /**
   * Returns the content without its digest; null if there is no record, or it is not what was
   * written.
   */
  public static ObjectNode read(Path file) {
    ObjectNode said = readUnproven(file);
    if (said == null) {
      return null;
    }
    JsonNode seal = said.remove(SEAL);
    return seal != null && seal.asText().equals(seal(said)) ? said : null;
  }

  /** Returns the content without checking its digest; null if nothing readable is there. */
  public static ObjectNode readUnproven(Path file) {
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return null;
    }
    try {
      return JSON.readTree(file.toFile()) instanceof ObjectNode said ? said : null;
    } catch (IOException e) {
      // Not a record of this program: its products are made again.
      return null;
    }
  }

  private static String seal(ObjectNode content) {
    byte[] text = content.toString().getBytes(StandardCharsets.UTF_8);
    return HexFormat.of().formatHex(StageKey.sha256().digest(text));
  }
}
