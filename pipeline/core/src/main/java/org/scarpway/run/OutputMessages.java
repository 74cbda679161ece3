package org.scarpway.run;

import java.util.List;

/** What is told at the end of a run. */
record OutputMessages(List<String> answers, List<String> warnings) {
  OutputMessages {
    answers = List.copyOf(answers);
    warnings = List.copyOf(warnings);
  }
}
