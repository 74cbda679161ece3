package org.scarpway.run.plan;

/** How progress is shown on stderr. */
public enum ProgressStyle {
  /** No progress. */
  quiet,
  /** A line every few seconds. */
  plain,
  /** One line on a terminal that is overwritten. */
  bar,
  /** Events for schedulers, one JSON object per line. */
  json;

  /**
   * Chooses the style for a call.
   *
   * @param asked null if the user did not choose one
   */
  public static ProgressStyle choose(boolean beQuiet, ProgressStyle asked, boolean terminal) {
    if (beQuiet) {
      return quiet;
    }
    if (asked != null) {
      return asked;
    }
    return terminal ? bar : plain;
  }
}
