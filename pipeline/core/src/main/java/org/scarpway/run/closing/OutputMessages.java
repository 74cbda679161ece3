package org.scarpway.run.closing;

import java.util.List;

/** The messages printed at the end of a run. */
public record OutputMessages(List<String> answers, List<String> warnings) {
  public OutputMessages {
    answers = List.copyOf(answers);
    warnings = List.copyOf(warnings);
  }
}
