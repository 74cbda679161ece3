package org.scarpway.stage;

import java.util.Collection;

/**
 * The user's input is wrong. The message is one line that states where, what, what was expected and
 * the remedy. The command exits with code 2 and nothing is written.
 */
public class UserError extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * Creates an error with a message that is already complete.
   *
   * @param oneLine where, what, expected and remedy; several errors are one per line
   */
  public UserError(String oneLine) {
    super(oneLine);
  }

  /**
   * Creates an error from the four parts of its message.
   *
   * @param where file:line:column, file, or option
   * @param what the mistake, with the value found
   * @param expected the allowed values
   * @param remedy how the user can correct it
   */
  public static UserError of(String where, String what, String expected, String remedy) {
    return new UserError(where + ": " + what + "; expected " + expected + "; " + remedy);
  }

  /**
   * Throws one error with all these mistakes, one per line, if there are any.
   *
   * @param lines complete messages; none for no error
   * @throws UserError if there is a line
   */
  public static void throwAll(Collection<String> lines) {
    if (!lines.isEmpty()) {
      throw new UserError(String.join("\n", lines));
    }
  }
}
