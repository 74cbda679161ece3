package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.UserError;

/**
 * Digests of FIPS 180-2, appendix B, and of the empty message (NIST example values), from memory.
 */
class InputDigestsTest {
  private static final String ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  private static final String MILLION_A =
      "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0";
  private static final String EMPTY =
      "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

  @TempDir Path dir;

  private Path file(String name, String content) throws IOException {
    return Files.writeString(dir.resolve(name), content);
  }

  @Test
  void digestsAreThePublishedOnes() throws IOException {
    Path abc = file("abc", "abc");
    // Longer than a block that is read at once.
    Path million = file("million", "a".repeat(1_000_000));
    Path empty = file("empty", "");
    InputDigests digests = new InputDigests(List.of(abc, empty), new FileDigests());
    assertEquals(ABC, digests.of(abc));
    assertEquals(EMPTY, digests.of(empty));
    assertEquals(MILLION_A, digests.of(million));
    assertEquals(ABC + " " + EMPTY, digests.of(List.of(abc, empty)));
    assertEquals(EMPTY + " " + ABC, digests.of(List.of(empty, abc)));
    assertEquals(List.of(abc, empty, million), List.copyOf(digests.all().keySet()));
  }

  @Test
  void otherContentOfTheSameLengthAndTimeIsNoticed() throws IOException {
    FileDigests known = new FileDigests();
    Path abc = file("abc", "abc");
    assertEquals(ABC, known.of(abc));
    SmallStage.damage(abc);
    assertNotEquals(ABC, known.of(abc));
    SmallStage.damage(abc);
    assertEquals(ABC, known.of(abc));
    Files.move(file("other", "xyz"), abc, StandardCopyOption.REPLACE_EXISTING);
    assertNotEquals(ABC, known.of(abc));
  }

  @Test
  void oneJobHasOneDigestForAFile() throws IOException {
    Path abc = file("abc", "abc");
    InputDigests digests = new InputDigests(List.of(abc), new FileDigests());
    file("abc", "changed while the job runs");
    assertEquals(ABC, digests.of(abc));
  }

  @Test
  void whatCannotBeReadIsTheUsersMistake() {
    Path none = dir.resolve("none.tif");
    for (List<Path> files : List.of(List.of(none), List.of(dir))) {
      String line =
          assertThrows(UserError.class, () -> new InputDigests(files, new FileDigests()))
              .getMessage();
      assertTrue(line.startsWith(files.get(0) + ": cannot be read ("), line);
    }
  }
}
