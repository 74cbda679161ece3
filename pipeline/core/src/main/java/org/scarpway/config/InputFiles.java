package org.scarpway.config;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.regex.PatternSyntaxException;
import org.scarpway.stage.Reason;

/**
 * Finds the files that a job names, relative to the file that names them, and keeps a list of all
 * of them. Only regular files on a local disk are accepted: no addresses, no driver prefixes, no
 * devices.
 */
final class InputFiles {
  private static final int MAX_MATCHES = 10_000;

  /** A file with its real path and with the path by which the user's files name it. */
  record Found(Path real, Path named) {
    String shownName() {
      return named.toString();
    }
  }

  private final SortedSet<Path> read = new TreeSet<>();

  /** Returns every file found so far, in order of name. */
  List<Path> all() {
    return List.copyOf(read);
  }

  void note(Path file) {
    read.add(file);
  }

  /** Returns the file, or null if there is none; errors are added to {@code problems}. */
  Found one(Path namedIn, Entry entry, Problems problems) {
    Path path = local(namedIn, entry, problems);
    return path == null ? null : regular(path, entry, problems);
  }

  /** Returns the files that match a name or a pattern with * and ?, in order of name. */
  List<Found> many(Path namedIn, Entry entry, Problems problems) {
    Path path = local(namedIn, entry, problems);
    if (path == null) {
      return List.of();
    }
    String last = String.valueOf(path.getFileName());
    if (Files.exists(path) || !last.matches(".*[*?\\[{].*")) {
      Found file = regular(path, entry, problems);
      return file == null ? List.of() : List.of(file);
    }
    List<Path> matches = new ArrayList<>();
    Path folder = path.getParent() == null ? Path.of("") : path.getParent();
    try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder, last)) {
      for (Path match : stream) {
        matches.add(match);
        if (matches.size() > MAX_MATCHES) {
          refuse(entry, "matches too many files", "at most " + MAX_MATCHES, "narrow it", problems);
          return List.of();
        }
      }
    } catch (PatternSyntaxException e) {
      refuse(entry, "is no valid pattern", "a name with * and ?", "rewrite it", problems);
      return List.of();
    } catch (IOException e) {
      refuse(entry, "has no such folder", "an existing folder", "check its name", problems);
      return List.of();
    }
    if (matches.isEmpty()) {
      refuse(entry, "matches no file", "one file or more", "check the pattern", problems);
    }
    Collections.sort(matches);
    List<Found> found = new ArrayList<>();
    for (Path match : matches) {
      Found file = regular(match, entry, problems);
      if (file != null) {
        found.add(file);
      }
    }
    return found;
  }

  private static Path local(Path namedIn, Entry entry, Problems problems) {
    String text = entry.text();
    if (text.contains("://") || text.startsWith("/vsi") || text.indexOf('<') >= 0) {
      refuse(
          entry,
          "is not the name of a local file",
          "a file on this machine",
          "copy the data to a file first",
          problems);
      return null;
    }
    try {
      Path folder = namedIn.getParent();
      Path path = folder == null ? Path.of(text) : folder.resolve(text);
      return path.normalize();
    } catch (InvalidPathException e) {
      refuse(
          entry,
          "is no file name (" + Reason.of(e) + ")",
          "the name of a file",
          "rewrite it",
          problems);
      return null;
    }
  }

  private Found regular(Path path, Entry entry, Problems problems) {
    if (!Files.exists(path)) {
      refuse(
          entry,
          "does not exist (looked for " + path + ")",
          "a readable file",
          "check its name; names are relative to the file that holds them",
          problems);
      return null;
    }
    if (!Files.isRegularFile(path)) {
      String kind = Files.isDirectory(path) ? "is a folder" : "is not a regular file";
      refuse(entry, kind, "a regular file", "name the file itself", problems);
      return null;
    }
    try {
      Path real = path.toRealPath();
      read.add(real);
      return new Found(real, path);
    } catch (IOException e) {
      refuse(
          entry, "cannot be resolved", "a readable file", "check links and permissions", problems);
      return null;
    }
  }

  private static void refuse(
      Entry entry, String what, String expected, String remedy, Problems problems) {
    problems.add(entry.at(), "file " + Problems.quote(entry.text()) + " " + what, expected, remedy);
  }
}
