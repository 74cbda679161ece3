package org.scarpway.stage;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;

/**
 * Results kept between runs, each under a key that is a digest of everything it was computed from.
 * A store may lose any entry at any time, and never returns one that is not as it was written.
 */
public interface ContentStore {
  /** Holds nothing. */
  ContentStore NONE =
      new ContentStore() {
        @Override
        public boolean keeps(long bytes) {
          return false;
        }

        @Override
        public boolean holds(String key) {
          return false;
        }

        @Override
        public <T> T read(String key, Reader<T> reader) {
          return null;
        }

        @Override
        public void write(String key, long bytes, Writer writer) {}
      };

  /** Reads a result. */
  @FunctionalInterface
  interface Reader<T> {
    /**
     * Returns the result; it is used only if all bytes prove to be as they were written.
     *
     * @throws IOException if the bytes are not such a result
     */
    T readFrom(InputStream in) throws IOException;
  }

  /** Writes a result. */
  @FunctionalInterface
  interface Writer {
    void writeTo(OutputStream out) throws IOException;
  }

  /**
   * True if a result of about so many bytes would be kept.
   *
   * @param bytes number of bytes
   */
  default boolean keeps(long bytes) {
    return true;
  }

  /** The same store for results that are not wavefronts. */
  default ContentStore ofOthers() {
    return this;
  }

  /** True if there is an entry; it is checked when it is read. */
  boolean holds(String key);

  /** Returns an entry, or null if there is none that is as it was written. */
  <T> T read(String key, Reader<T> reader);

  /**
   * Keeps a result. A store that cannot be written only costs time later.
   *
   * @param bytes about how many bytes will be written
   */
  void write(String key, long bytes, Writer writer);
}
