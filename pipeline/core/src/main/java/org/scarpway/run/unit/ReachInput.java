package org.scarpway.run.unit;

import java.util.List;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;

/**
 * The input of a reach question.
 *
 * @param walkHome null unless the home rule is walk-back
 * @param targets of the job, each with the stay of the question where it states none
 */
public record ReachInput(
    ReachRequest request, TraversalInput ground, WalkHome walkHome, List<Target> targets) {
  public ReachInput {
    targets = List.copyOf(targets);
  }
}
