package org.scarpway.cli;

/** The option that all commands share. */
interface Debugging {
  /** True if the stack trace of a failure is printed. */
  boolean debug();
}
