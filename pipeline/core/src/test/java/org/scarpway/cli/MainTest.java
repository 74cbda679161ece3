package org.scarpway.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/** However a command ends, it ends in words and with a code that is documented. */
class MainTest {
  private static String told(int code, Throwable e) {
    PrintStream err = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    try {
      System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
      assertEquals(code, Main.report(e, false));
    } finally {
      System.setErr(err);
    }
    return said.toString(StandardCharsets.UTF_8);
  }

  @Test
  void everythingThatCanBeThrownIsOneLineWithoutTheNameOfAClass() {
    List<Throwable> all =
        List.of(
            new StackOverflowError(),
            new OutOfMemoryError("Java heap space"),
            new OutOfMemoryError(),
            new NoClassDefFoundError("org/scarpway/Some"),
            new ExceptionInInitializerError(new IllegalStateException("x")),
            new UnsatisfiedLinkError("org.gdal.gdal.gdalJNI.Some()V"),
            new InternalError(),
            new AssertionError("a\nb"),
            new ArrayIndexOutOfBoundsException("Index 32 out of bounds for length 32"),
            new NullPointerException(),
            new ClassCastException(
                "class java.lang.String cannot be cast to class java.lang.Integer"),
            new IllegalStateException(new IOException("disk gone")),
            new UncheckedIOException(new AccessDeniedException("/a/b")),
            new Exception());
    for (Throwable e : all) {
      String line = told(ExitCode.STAGE_FAILED, e);
      assertEquals(1, line.lines().count(), line);
      assertFalse(line.matches("(?s).*(Exception|Error|java\\.|org\\.|null).*"), line);
      assertTrue(line.startsWith("scarpway: "), line);
    }
    assertEquals("no such thing\n", told(ExitCode.INPUT_WRONG, new UserError("no such thing")));
    assertEquals("disk full\n", told(ExitCode.STAGE_FAILED, new StageFailure("disk full")));
  }

  /** Numbers on the command line at and beyond what can be meant, before any file is opened. */
  @Test
  void optionsAreBoundedToo() {
    String[][] all = {
      {"run", "none.yaml", "--threads", "0"},
      {"run", "none.yaml", "--threads", "-1"},
      {"run", "none.yaml", "--threads", "1000000000"},
      {"run", "none.yaml", "--threads", "99999999999999"},
      {"run", "none.yaml", "--threads", "1e3"},
      {"run", "none.yaml", "--store-gb", "NaN"},
      {"run", "none.yaml", "--store-gb", "Infinity"},
      {"run", "none.yaml", "--store-gb", "-1"},
      {"plan", "none.yaml", "--store-gb", "1e300"},
      {"plan", "none.yaml", "--store-gb", "1000000001"},
      {"explain", "none.yaml", "NaN", "0"},
      {"explain", "none.yaml", "0", "Infinity"},
      {"explain", "none.yaml", "1e300", "0"},
      {"explain", "none.yaml", "0", "x"},
    };
    for (String[] args : all) {
      PrintStream err = System.err;
      ByteArrayOutputStream said = new ByteArrayOutputStream();
      try {
        System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
        assertEquals(ExitCode.INPUT_WRONG, Main.execute(args), String.join(" ", args));
      } finally {
        System.setErr(err);
      }
      String line = said.toString(StandardCharsets.UTF_8);
      assertFalse(line.contains("no such file"), line);
      assertFalse(line.matches("(?s).*(Exception|java\\.).*"), line);
    }
  }
}
