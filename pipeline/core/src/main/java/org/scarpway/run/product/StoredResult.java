package org.scarpway.run.product;

import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * The part of a stage's result that is neither raster nor table, stored beside its products for the
 * next run.
 */
public final class StoredResult {
  private static final String FILE = ".result.json";
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .disable(JsonWriteFeature.WRITE_NAN_AS_STRINGS)
          .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
          .build();

  private StoredResult() {}

  public static void write(Path dir, Object value) {
    AtomicFileWrite.write(dir.resolve(FILE), part -> JSON.writeValue(part.toFile(), value));
  }

  /** Returns a value as the bytes from which {@link #of} reads it, the same for equal values. */
  public static byte[] bytes(Object value) {
    try {
      return JSON.writeValueAsBytes(value);
    } catch (IOException e) {
      throw new IllegalStateException("a result that cannot be written", e);
    }
  }

  /**
   * Reads a value from its bytes.
   *
   * @throws IOException if they are not such a value
   */
  public static <T> T of(byte[] bytes, Class<T> type) throws IOException {
    return JSON.readValue(bytes, type);
  }

  public static <T> T read(Path dir, Class<T> type) {
    Path file = dir.resolve(FILE);
    try (var in = Files.newInputStream(file)) {
      return JSON.readValue(in, type);
    } catch (IOException e) {
      throw new StageFailure(file + " cannot be read (" + Reason.of(e) + "); run with --fresh", e);
    }
  }
}
