package org.scarpway.stage;

/**
 * No way on this ground joins the places of a question. In a run that is the answer to the question
 * and no fault: it is told, there are no products, and the run ends as if the question had some.
 */
public final class NoWay extends UserError {
  private static final long serialVersionUID = 1L;

  /**
   * @param where the question
   * @param what the places that no way joins, and where ways end
   * @param expected places that are joined
   * @param remedy what the user can change
   */
  public NoWay(String where, String what, String expected, String remedy) {
    super(UserError.of(where, what, expected, remedy).getMessage());
  }
}
