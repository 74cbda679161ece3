package org.scarpway.run;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Supplier;

/**
 * A stage in the graph of a job: its unit, the stages whose results it takes, and its own result
 * once it is finished.
 */
final class StageNode<T> implements Supplier<T> {
  private final StageTask<T> unit;
  private final List<StageNode<?>> needs;
  private Path folder;
  private Supplier<T> result;
  private String failure;

  StageNode(StageTask<T> unit, StageNode<?>... needs) {
    this.unit = unit;
    this.needs = List.of(needs);
  }

  StageTask<T> unit() {
    return unit;
  }

  String id() {
    return unit.id();
  }

  StageKey key() {
    return unit.key();
  }

  /** Stages that are finished before this one. */
  List<StageNode<?>> needs() {
    return needs;
  }

  void finished(Path itsFolder, Supplier<T> itsResult) {
    folder = itsFolder;
    result = itsResult;
  }

  void failed(String line) {
    failure = line;
  }

  /** Why there are no products, null where nothing went wrong. */
  String failure() {
    return failure;
  }

  boolean isFinished() {
    return result != null;
  }

  /** Where the finished products are. */
  Path folder() {
    if (folder == null) {
      throw new IllegalStateException("stage " + id() + " is not finished");
    }
    return folder;
  }

  @Override
  public T get() {
    if (result == null) {
      throw new IllegalStateException("stage " + id() + " is not finished");
    }
    return result.get();
  }
}
