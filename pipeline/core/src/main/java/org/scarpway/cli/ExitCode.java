package org.scarpway.cli;

/** How a command ends, as README says. */
final class ExitCode {
  static final int OK = 0;

  static final int INPUT_WRONG = 2;

  static final int STAGE_FAILED = 3;

  private ExitCode() {}
}
