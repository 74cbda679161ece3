package org.scarpway.run.plan;

/** How progress is shown on stderr. */
public enum ProgressStyle {
  /** Not at all. */
  quiet,
  /** A line every few seconds. */
  plain,
  /** One line on a terminal that is written over. */
  bar,
  /** Events for schedulers, one JSON object a line. */
  json;

  /**
   * @param asked null where the user did not say
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
