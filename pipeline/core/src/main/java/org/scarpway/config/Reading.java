package org.scarpway.config;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.scarpway.config.InputFiles.Found;

/**
 * One reading of a job file and all files that it names: the errors, the files read and the
 * settings in effect.
 */
final class Reading {
  final Problems problems;
  final InputFiles files = new InputFiles();
  final Settings settings = new Settings();

  /** The reserves entry of each vehicle's file, present or not. */
  final Map<String, Entry> reserves = new HashMap<>();

  Reading(Problems problems) {
    this.problems = problems;
  }

  /** Returns a file validated against its schema with the defaults filled in, or null. */
  YamlDoc read(Found file, ConfigSchema schema) {
    YamlDoc doc = YamlReader.read(file.real(), file.shownName(), problems);
    if (doc != null) {
      schema.check(doc, problems);
    }
    return doc;
  }

  /** Returns a file that was passed to the program itself, not named by another file. */
  Found given(Path file) {
    Path real;
    try {
      real = file.toRealPath();
    } catch (IOException e) {
      // A missing file is reported when it is read.
      real = file.toAbsolutePath().normalize();
    }
    files.note(real);
    return new Found(real, file);
  }
}
