package org.scarpway.validation;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestPlan;

/** Writes reports/validation.md after a full run of the suite. */
public final class ValidationReport implements TestExecutionListener {

  @Override
  public void testPlanExecutionFinished(TestPlan plan) {
    if (!"full".equals(System.getProperty("scarpway.validation")) || Validation.ROWS.isEmpty()) {
      return;
    }
    StringBuilder md = new StringBuilder();
    md.append("# Validation\n\n");
    md.append(
        "Checks of the terrain, mobility and reach maths against sources outside the project. ");
    md.append(
        "Written by the test suite (`pipeline/bin/verify`); every row is also a test that fails ");
    md.append("when its tolerance is missed.\n\n");
    md.append(
        "Flags: V source read; Vs read in a secondary text; M cited from memory; R reproduced by ");
    md.append(
        "an independent program; C follows by algebra from the cited formula; P common practice, no source.\n\n");
    md.append("| id | check | source | flag | expected | got | error | tolerance |\n");
    md.append("|---|---|---|---|---|---|---|---|\n");
    for (Validation.Row r : Validation.ROWS.values()) {
      md.append("| ")
          .append(
              String.join(
                  " | ",
                  r.id(),
                  cell(r.check()),
                  cell(r.source()),
                  r.flag(),
                  r.expected(),
                  r.got(),
                  r.error(),
                  r.tolerance()))
          .append(" |\n");
    }
    md.append("\n").append(Validation.ROWS.size()).append(" checks.\n\n");
    md.append(UnreadSources.section());
    try {
      Path file = Path.of(System.getProperty("scarpway.root"), "reports", "validation.md");
      Path aside = file.resolveSibling("validation.md.part");
      Files.writeString(aside, md);
      Files.move(aside, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String cell(String s) {
    return s.replace("|", "\\|");
  }
}
