package org.scarpway.stage;

import java.util.Collection;

/**
 * The user's input is wrong: one line that says what, where, what was expected and what to do. The
 * command ends with exit code 2 and nothing written.
 */
public final class UserError extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public UserError(String oneLine) {
    super(oneLine);
  }

  /**
   * @param where file:line:column, file, or option
   * @param what what is wrong, with the value that was got
   * @param expected what is allowed
   * @param remedy what to do
   */
  public static UserError of(String where, String what, String expected, String remedy) {
    return new UserError(where + ": " + what + "; expected " + expected + "; " + remedy);
  }

  /** Ends with all these mistakes, a line each, if there are any. */
  public static void throwAll(Collection<String> lines) {
    if (!lines.isEmpty()) {
      throw new UserError(String.join("\n", lines));
    }
  }
}
