package org.scarpway.report;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import org.scarpway.stage.ContentStore;

/** Keeps everything in memory and counts what it is given. */
final class InMemoryStore implements ContentStore {
  private final Map<String, byte[]> entries = new ConcurrentHashMap<>();
  private final AtomicInteger written = new AtomicInteger();

  int written() {
    return written.get();
  }

  @Override
  public boolean holds(String key) {
    return entries.containsKey(key);
  }

  @Override
  public <T> T read(String key, Reader<T> reader) {
    try {
      byte[] bytes = entries.get(key);
      return bytes == null ? null : reader.readFrom(new ByteArrayInputStream(bytes));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void write(String key, long bytes, Writer writer) {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      writer.writeTo(out);
      entries.put(key, out.toByteArray());
      written.incrementAndGet();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
