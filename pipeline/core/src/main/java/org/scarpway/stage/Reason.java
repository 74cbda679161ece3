package org.scarpway.stage;

import java.io.UncheckedIOException;
import java.nio.channels.ClosedByInterruptException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.NotLinkException;
import java.util.regex.Pattern;

/** The reason of a failure as one line for users, without class names. */
public final class Reason {
  private static final int MAX_CHARS = 300;

  /**
   * A class name with its packages, or a simple name that ends like an exception; text after it is
   * kept.
   */
  private static final Pattern CLASS_NAME =
      Pattern.compile(
          "\\b(?:(?:java|javax|jdk|sun|com|org|io|it|net|mil|picocli)\\.(?:[a-z_]\\w*\\.)*[A-Z][\\w$]*"
              + "|[A-Z]\\w*(?:Exception|Error))\\b(?:: *)?");

  private Reason() {}

  public static String of(Throwable failure) {
    Throwable t = failure;
    while ((t instanceof UncheckedIOException || isBare(t)) && t.getCause() != null) {
      t = t.getCause();
    }
    String said = said(t);
    if (!(t instanceof FileSystemException f) || f.getFile() == null) {
      return said;
    }
    return said + ": " + oneLine(f.getFile());
  }

  /** True if this failure only wraps another and has no message of its own. */
  private static boolean isBare(Throwable t) {
    return t.getCause() != null
        && (t.getMessage() == null || t.getMessage().equals(t.getCause().toString()));
  }

  private static String said(Throwable t) {
    if (t instanceof OutOfMemoryError) {
      return "not enough memory";
    }
    if (t instanceof StackOverflowError) {
      return "something is nested too deep";
    }
    if (t instanceof NoClassDefFoundError || t instanceof ClassNotFoundException) {
      return "a part of the program is missing; install it again";
    }
    if (t instanceof InvalidPathException p) {
      return notAName(p);
    }
    if (t instanceof ClosedByInterruptException || t instanceof InterruptedException) {
      return "interrupted";
    }
    if (t instanceof FileSystemException f) {
      return f.getReason() == null ? kind(f) : plain(f.getReason());
    }
    String said = t.getMessage() == null ? "" : plain(t.getMessage());
    return said.isEmpty() ? "no reason given" : said;
  }

  /** A description of failures that only their class tells apart. */
  private static String kind(FileSystemException f) {
    if (f instanceof NoSuchFileException) {
      return "no such file or folder";
    }
    if (f instanceof AccessDeniedException) {
      return "permission denied";
    }
    if (f instanceof FileAlreadyExistsException) {
      return "something of that name is in the way";
    }
    if (f instanceof NotDirectoryException) {
      return "not a folder";
    }
    if (f instanceof DirectoryNotEmptyException) {
      return "folder not empty";
    }
    if (f instanceof FileSystemLoopException) {
      return "links lead in a circle";
    }
    return f instanceof NotLinkException ? "not a link" : "the file system refuses";
  }

  private static String notAName(InvalidPathException p) {
    String charset = System.getProperty("sun.jnu.encoding", "unknown");
    String name = "'" + oneLine(p.getInput()) + "' can be no name of a file";
    boolean letters = p.getInput().chars().anyMatch(c -> c > 126);
    return letters && !charset.equalsIgnoreCase("UTF-8")
        ? name + " in a session with the character set " + charset + "; set LC_ALL=C.UTF-8"
        : name;
  }

  /** A foreign message without the parts meant for programmers. */
  public static String plain(String words) {
    return oneLine(CLASS_NAME.matcher(words).replaceAll(""))
        .replaceAll("^[:;,]+|[:;,(]+$", "")
        .strip();
  }

  private static String oneLine(String words) {
    String line = words.replaceAll("[\\p{C}\\s]+", " ").strip();
    return line.length() > MAX_CHARS ? line.substring(0, MAX_CHARS) + "..." : line;
  }
}
