package org.scarpway.cli;

/** Exit codes of the commands, as documented in README. */
final class ExitCode {
  static final int OK = 0;

  static final int INPUT_WRONG = 2;

  static final int STAGE_FAILED = 3;

  private ExitCode() {}
}
