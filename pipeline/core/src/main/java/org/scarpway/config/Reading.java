package org.scarpway.config;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.scarpway.config.InputFiles.Found;

/**
 * One reading of a file and of all that it names: what is wrong, which files were read and which
 * settings are in effect.
 */
final class Reading {
  final Problems problems;
  final InputFiles files = new InputFiles();
  final Settings settings = new Settings();

  /** What the file of each vehicle says of reserves, present or not. */
  final Map<String, Entry> reserves = new HashMap<>();

  Reading(Problems problems) {
    this.problems = problems;
  }

  /** A file checked against its schema with the defaults filled in, or null. */
  YamlDoc read(Found file, ConfigSchema schema) {
    YamlDoc doc = YamlReader.read(file.real(), file.shownName(), problems);
    if (doc != null) {
      schema.check(doc, problems);
    }
    return doc;
  }

  /** A file that the program itself was given. */
  Found given(Path file) {
    Path real;
    try {
      real = file.toRealPath();
    } catch (IOException e) {
      // a file that is missing is reported when it is read
      real = file.toAbsolutePath().normalize();
    }
    files.note(real);
    return new Found(real, file);
  }
}
