package org.scarpway.run;

import java.util.List;

/** What is told at the end of a run. */
record ClosingMessages(List<String> answers, List<String> warnings) {
  ClosingMessages {
    answers = List.copyOf(answers);
    warnings = List.copyOf(warnings);
  }
}
