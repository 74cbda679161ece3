package org.scarpway.run.progress;

/**
 * Tells a user who stops a run what is kept. The program ends by the signal's own code (130, 143);
 * products appear by renames only, so there is nothing to undo.
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

  /** The runs ended by themselves. */
  public void forget() {
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // The program is being ended; the hook speaks.
    }
  }
}
