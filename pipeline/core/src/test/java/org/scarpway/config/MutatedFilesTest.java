package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.UserError;

/** Whatever happens to the bytes of its files, a job is read or refused in plain lines. */
class MutatedFilesTest {
  private static final String[] NAMES = {
    "job.yaml", "job.yaml", "rover.yaml", "soil.yaml", "walker.yaml", "targets.csv"
  };
  private static final String[] PIECES = {
    "", " ", "\n", "  ", "\t", ":", ": ", "- ", "[", "]", "{", "}", ",", "\"", "'", "#", "&a ",
    "*a ", "!x ", "|", ">", "?", "%", "null", "true", "-1", "0", "1e400", ".nan", "\u00e9", "\0",
    "<<: ", "---\n"
  };

  @TempDir Path dir;

  @Test
  void isReadOrRefused() throws Exception {
    int rounds = Integer.getInteger("scarpway.mutations", 400);
    SplittableRandom random = new SplittableRandom(20260101);
    JobFolder folder = new JobFolder(dir);
    int refused = 0;
    for (int i = 0; i < rounds; i++) {
      String name = NAMES[random.nextInt(NAMES.length)];
      byte[] good = Files.readAllBytes(dir.resolve(name));
      byte[] bad = mutate(good, random);
      folder.write(name, bad);
      try {
        JobReader.readAll(folder.job(), Map.of());
      } catch (UserError e) {
        refused++;
        assertTrue(
            e.getMessage()
                .lines()
                .allMatch(l -> l.matches(".+: .+; expected .+; .+|and \\d+ more problems")),
            e.getMessage());
      } catch (RuntimeException | StackOverflowError e) {
        throw new AssertionError(name + ":\n" + new String(bad, StandardCharsets.UTF_8), e);
      }
      folder.write(name, good);
    }
    assertTrue(refused > rounds / 2, "refused only " + refused + " of " + rounds);
  }

  private static byte[] mutate(byte[] good, SplittableRandom random) {
    String text = new String(good, StandardCharsets.UTF_8);
    for (int n = 1 + random.nextInt(3); n > 0; n--) {
      int from = random.nextInt(text.length() + 1);
      int to = Math.min(text.length(), from + (random.nextInt(3) == 0 ? random.nextInt(40) : 1));
      String piece =
          random.nextInt(4) == 0
              ? text.substring(from, to) + text.substring(from, to)
              : PIECES[random.nextInt(PIECES.length)];
      text = text.substring(0, from) + piece + text.substring(to);
    }
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    if (bytes.length > 0 && random.nextInt(5) == 0) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
    }
    return bytes;
  }
}
