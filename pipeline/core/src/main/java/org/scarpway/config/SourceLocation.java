package org.scarpway.config;

/**
 * A position in a file, or the option that a value came from. Lines and columns count from 1; line
 * 0 means the whole file.
 */
record SourceLocation(String source, int line, int column) {

  static SourceLocation file(String shownName) {
    return new SourceLocation(shownName, 0, 0);
  }

  /** Returns the location of a value given on the command line. */
  static SourceLocation option(String key) {
    return new SourceLocation("--set " + key, 0, 0);
  }

  /**
   * Returns the same position with only the file's name, so that provenance is the same on any
   * machine.
   */
  String origin() {
    if (line == 0) {
      return "--set";
    }
    String name = source.substring(source.replace('\\', '/').lastIndexOf('/') + 1);
    return name + ":" + line + ":" + column;
  }

  @Override
  public String toString() {
    return line == 0 ? source : source + ":" + line + ":" + column;
  }
}
