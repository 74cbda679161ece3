package org.scarpway.run;

import java.util.function.Supplier;

/** A value that is made when it is first asked for, and only then. */
final class Once<T> implements Supplier<T> {
  private final Supplier<T> source;
  private T value;

  Once(Supplier<T> source) {
    this.source = source;
  }

  @Override
  public synchronized T get() {
    if (value == null) {
      value = source.get();
    }
    return value;
  }
}
