package org.scarpway.run.progress;

/**
 * Informs a user who stops a run of what is kept. The program ends with the signal's own code (130,
 * 143). Products appear by renames only, so nothing has to be undone.
 */
public final class Interruption {
  private final Thread hook;

  private Interruption(Thread hook) {
    this.hook = hook;
  }

  public static Interruption watch(RunLog log) {
    Thread hook =
        new Thread(
            () -> log.note("interrupted: finished stages are kept, the same command goes on"),
            "scarpway-interrupted");
    Runtime.getRuntime().addShutdownHook(hook);
    return new Interruption(hook);
  }

  /** Called when the runs ended by themselves. */
  public void forget() {
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // The program is already ending; the hook prints the message.
    }
  }
}
