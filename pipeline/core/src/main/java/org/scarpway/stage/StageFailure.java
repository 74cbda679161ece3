package org.scarpway.stage;

/**
 * A stage failed for a reason outside the user's input (a full disk, a broken file system): one
 * line of message. The command exits with code 3; stages finished before are kept.
 */
public final class StageFailure extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public StageFailure(String oneLine, Throwable cause) {
    super(oneLine, cause);
  }

  public StageFailure(String oneLine) {
    super(oneLine);
  }

  /** A failure that no input should cause: a bug of the program, reported at {@code where}. */
  public static StageFailure bug(String where, Throwable cause) {
    return new StageFailure(
        where + ": internal error (" + Reason.of(cause) + "); run again with --debug and report it",
        cause);
  }
}
