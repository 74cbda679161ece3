package org.scarpway.run.store;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.TreeSet;
import org.scarpway.stage.ContentStore;

/**
 * A store of wavefronts that lists those which a question asked for, so that a plan can say how
 * many of them are kept when it is asked again with other numbers.
 */
public final class AskedFronts implements ContentStore {
  private final ContentFiles files;
  private final Set<String> asked = new TreeSet<>();

  /**
   * @param files where wavefronts and lists are kept
   */
  public AskedFronts(ContentFiles files) {
    this.files = files;
  }

  @Override
  public boolean keeps(long bytes) {
    return files.keeps(bytes);
  }

  @Override
  public ContentStore ofOthers() {
    return files;
  }

  @Override
  public boolean holds(String key) {
    return files.holds(key);
  }

  @Override
  public <T> T read(String key, Reader<T> reader) {
    note(key);
    return files.read(key, reader);
  }

  @Override
  public void write(String key, long bytes, Writer writer) {
    note(key);
    files.write(key, bytes, writer);
  }

  /** Number of kept results that were not as they had been written. */
  public int damaged() {
    return files.damaged();
  }

  /** Drops what was used longest ago until the bound is kept. */
  public void trim() {
    files.trim();
  }

  private synchronized void note(String key) {
    asked.add(key);
  }

  /** Begins a list. */
  public synchronized void begin() {
    asked.clear();
  }

  /**
   * Ends the list and keeps it, unless it is empty.
   *
   * @param question what the fronts of the question depend on but for its numbers; null for none
   */
  public synchronized void end(StageKey question) {
    if (question != null && !asked.isEmpty()) {
      byte[] lines = String.join("\n", asked).getBytes(StandardCharsets.UTF_8);
      files.write(question.hex(), lines.length, out -> out.write(lines));
    }
  }

  /**
   * Number of wavefronts that are kept of those which the question asked for when it was computed
   * last; changes nothing on disk.
   */
  public int kept(StageKey question) {
    byte[] lines = question == null ? null : files.look(question.hex(), InputStream::readAllBytes);
    if (lines == null) {
      return 0;
    }
    return (int) new String(lines, StandardCharsets.UTF_8).lines().filter(files::holds).count();
  }
}
