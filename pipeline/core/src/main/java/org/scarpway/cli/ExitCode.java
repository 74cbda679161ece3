package org.scarpway.cli;

/** Documented exit codes, and how the help texts of the commands tell them. */
final class ExitCode {
  static final int OK = 0;
  static final int INPUT_WRONG = 2;
  static final int STAGE_FAILED = 3;

  static final String WRITES_NOTHING =
      "Exit codes: 0 done; 2 the input is wrong; 3 the program itself failed. No file is written.";
  static final String WRITES =
      "Exit codes: 0 written; 2 the input is wrong and nothing was written; 3 the disk or the program failed.";
  static final String ANSWERS =
      "Exit codes: 0 answered, whatever the answer is; 2 the input is wrong and nothing was written; 3 the disk or the program failed.";
  static final String RUNS =
      "Exit codes: 0 done; 2 the input is wrong and nothing was written; 3 a stage or the program failed, what was finished is kept; 130 or 143 interrupted.";

  private ExitCode() {}
}
