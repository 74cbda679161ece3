package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a folder of sealed results gives back is what was put there, or nothing. */
class ContentFilesTest {
  @TempDir Path dir;
  private Path folder;
  private ContentFiles files;
  private final SplittableRandom random = new SplittableRandom(8);

  @BeforeEach
  void open() {
    folder = dir.resolve("fronts");
    files = new ContentFiles(folder, 1_000_000, false);
  }

  private static void put(ContentFiles files, String key, byte[] bytes) {
    files.write(key, bytes.length, out -> out.write(bytes));
  }

  private static byte[] get(ContentFiles files, String key) {
    return files.read(key, InputStream::readAllBytes);
  }

  private byte[] bytes(int n) {
    byte[] bytes = new byte[n];
    random.nextBytes(bytes);
    return bytes;
  }

  private List<Path> there() throws IOException {
    try (Stream<Path> list = Files.list(folder)) {
      return list.sorted().toList();
    }
  }

  @Test
  void whatWasPutIsGiven() throws IOException {
    for (int n : new int[] {0, 1, 1000, 300_000 / 2}) {
      byte[] content = bytes(n);
      assertFalse(files.holds("k" + n));
      assertNull(get(files, "k" + n));
      put(files, "k" + n, content);
      assertTrue(files.holds("k" + n));
      assertArrayEquals(content, get(files, "k" + n));
      assertArrayEquals(content, get(new ContentFiles(folder, 1_000_000, false), "k" + n));
    }
    assertEquals(4, there().size());
    put(files, "k1", new byte[] {7});
    assertArrayEquals(new byte[] {7}, get(files, "k1"));
  }

  @Test
  void whatIsNotAsItWasWrittenIsRemoved() throws IOException {
    byte[] content = bytes(5000);
    for (int k = 0; k < 60; k++) {
      put(files, "k", content);
      Path file = there().get(0);
      byte[] sealed = Files.readAllBytes(file);
      byte[] other =
          switch (k % 4) {
            case 0 -> Arrays.copyOf(sealed, random.nextInt(sealed.length));
            case 1 -> Arrays.copyOf(sealed, sealed.length + 1 + random.nextInt(50));
            case 2 -> bytes(random.nextInt(6000));
            default -> {
              byte[] flipped = sealed.clone();
              flipped[random.nextInt(sealed.length)] ^= (byte) (1 << random.nextInt(8));
              yield flipped;
            }
          };
      Files.write(file, other);
      assertNull(get(files, "k"), "case " + k);
      assertEquals(List.of(), there());
      assertEquals(k + 1, files.damaged());
    }
  }

  @Test
  void aFileUnderAnotherNameIsNotBelieved() throws IOException {
    for (int k = 0; k < 20; k++) {
      int n = 2 + random.nextInt(5);
      int length = random.nextInt(3000);
      for (Path left : k == 0 ? List.<Path>of() : there()) {
        Files.delete(left);
      }
      for (int i = 0; i < n; i++) {
        put(files, "k" + i, bytes(length));
      }
      List<Path> names = there();
      assertEquals(n, names.size());
      List<byte[]> sealed = new ArrayList<>();
      for (Path name : names) {
        sealed.add(Files.readAllBytes(name));
      }
      // All the same file, else every file under another's name.
      int by = k % 4 == 0 ? 0 : 1 + random.nextInt(n - 1);
      for (int i = 0; i < n; i++) {
        Files.write(names.get(i), sealed.get(by == 0 ? 0 : (i + by) % n));
      }
      int believed = 0;
      for (int i = 0; i < n; i++) {
        byte[] looked = files.look("k" + i, InputStream::readAllBytes);
        byte[] got = get(files, "k" + i);
        assertArrayEquals(looked, got);
        believed += got == null ? 0 : 1;
      }
      assertEquals(by == 0 ? 1 : 0, believed, "case " + k);
      assertEquals(believed, there().size());
    }
  }

  @Test
  void aReaderThatFailsOrStopsEarlyIsGivenNothing() {
    put(files, "k", bytes(500));
    assertNull(
        files.read(
            "k",
            in -> {
              throw new IOException("not such a result");
            }));
    put(files, "k", bytes(500));
    assertNull(files.read("k", in -> in.readNBytes(499)));
    put(files, "k", bytes(500));
    assertNotNull(files.read("k", in -> in.readNBytes(500)));
    put(files, "k", bytes(500));
    assertNull(
        files.read(
            "k",
            in -> {
              throw new IllegalArgumentException("nor any other");
            }));
  }

  @Test
  void theOldestAreDroppedBeyondTheBound() throws IOException {
    ContentFiles small = new ContentFiles(folder, 10_000, false);
    for (int k = 0; k < 6; k++) {
      String key = "k" + k;
      put(small, key, bytes(1500));
      for (Path file : there()) {
        Instant earlier = Files.getLastModifiedTime(file).toInstant().minus(Duration.ofMinutes(1));
        Files.setLastModifiedTime(file, FileTime.from(earlier));
      }
    }
    // The first is used again, so the second is the oldest.
    assertNotNull(get(small, "k0"));
    put(small, "k6", bytes(1500));
    assertTrue(small.holds("k0"));
    assertFalse(small.holds("k1"));
    assertTrue(small.holds("k2"));
    // What would drive out most others is not kept.
    put(small, "large", bytes(5000));
    assertFalse(small.holds("large"));
    assertTrue(small.holds("k2"));
  }

  @Test
  void aSmallerBoundIsKeptThoughNothingIsWritten() throws IOException {
    long all = 0;
    for (int k = 0; k < 10; k++) {
      put(files, "k" + k, bytes(100 + random.nextInt(2000)));
    }
    for (Path file : there()) {
      all += Files.size(file);
    }
    assertEquals(all, ContentFiles.bytesIn(folder));
    assertEquals(0, ContentFiles.bytesIn(dir.resolve("none")));
    new ContentFiles(folder, all, false).trim();
    assertEquals(10, there().size());
    for (long bound = all - 1; bound > 0; bound = Math.floorDiv(bound, 2)) {
      int before = there().size();
      ContentFiles small = new ContentFiles(folder, bound, false);
      put(small, "large", bytes(3000));
      small.trim();
      assertTrue(ContentFiles.bytesIn(folder) <= bound, "bound " + bound);
      assertTrue(there().size() <= before, "bound " + bound);
    }
    new ContentFiles(folder, 0, false).trim();
    assertEquals(List.of(), there());
    new ContentFiles(null, 0, false).trim();
    new ContentFiles(dir.resolve("none"), 0, false).trim();
  }

  @Test
  void aFreshRunReadsNothingAndWritesAll() {
    put(files, "k", bytes(10));
    ContentFiles fresh = new ContentFiles(folder, 1_000_000, true);
    assertNull(get(fresh, "k"));
    byte[] content = bytes(20);
    put(fresh, "k", content);
    assertArrayEquals(content, get(files, "k"));
  }

  @Test
  void aWriterThatFailsAndALinkedFolderLeaveNothing() throws IOException {
    files.write(
        "k",
        10,
        out -> {
          out.write(1);
          throw new IOException("disk full");
        });
    assertFalse(files.holds("k"));
    assertEquals(List.of(), there());
    Path elsewhere = Files.createDirectory(dir.resolve("elsewhere"));
    Path link = Files.createSymbolicLink(dir.resolve("link"), elsewhere);
    ContentFiles linked = new ContentFiles(link, 1_000_000, false);
    put(linked, "k", bytes(10));
    assertFalse(linked.holds("k"));
    try (Stream<Path> list = Files.list(elsewhere)) {
      assertEquals(0, list.count());
    }
  }

  @Test
  void onlyPartsOfDeadRunsAreSweptAway() throws IOException {
    put(files, "k", bytes(10));
    Path old = Files.write(folder.resolve(".a.1-1.part"), bytes(5));
    Path young = Files.write(folder.resolve(".b.1-1.part"), bytes(5));
    Path foreign = Files.write(folder.resolve("notes.txt"), bytes(5));
    Files.setLastModifiedTime(old, FileTime.from(Instant.now().minus(Duration.ofHours(2))));
    put(files, "j", bytes(10));
    assertFalse(Files.exists(old));
    assertTrue(Files.exists(young));
    assertTrue(Files.exists(foreign));
  }
}
