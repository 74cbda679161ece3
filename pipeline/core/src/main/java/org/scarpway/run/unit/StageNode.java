package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.run.store.StageKey;

/**
 * A stage in the graph of a job: its task, the stages whose results it uses, and its own result
 * once it is finished.
 */
public final class StageNode<T> implements Supplier<T> {
  private final StageTask<T> unit;
  private final List<StageNode<?>> needs;
  private Path folder;
  private Supplier<T> result;
  private String failure;

  public StageNode(StageTask<T> unit, StageNode<?>... needs) {
    this.unit = unit;
    this.needs = List.of(needs);
  }

  public StageTask<T> unit() {
    return unit;
  }

  public String id() {
    return unit.id();
  }

  public StageKey key() {
    return unit.key();
  }

  /** Returns the stages that must be finished before this one. */
  public List<StageNode<?>> needs() {
    return needs;
  }

  public void finished(Path itsFolder, Supplier<T> itsResult) {
    folder = itsFolder;
    result = itsResult;
  }

  public void failed(String line) {
    failure = line;
  }

  /** Returns why there are no products, null if nothing failed. */
  public String failure() {
    return failure;
  }

  public boolean isFinished() {
    return result != null;
  }

  /** Returns the folder of the finished products. */
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
