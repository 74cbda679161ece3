package org.scarpway.stage;

/**
 * A stage failed for a reason outside the user's input (a full disk, a broken file system): one
 * line. The command ends with exit code 3; what was finished before is kept.
 */
public final class StageFailure extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public StageFailure(String oneLine, Throwable cause) {
    super(oneLine, cause);
  }

  public StageFailure(String oneLine) {
    super(oneLine);
  }

  /** Something went wrong that no input should bring about: our bug, where the user meets it. */
  public static StageFailure bug(String where, Throwable cause) {
    return new StageFailure(
        where + ": internal error (" + Reason.of(cause) + "); run again with --debug and report it",
        cause);
  }
}
