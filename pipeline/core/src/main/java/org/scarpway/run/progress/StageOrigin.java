package org.scarpway.run.progress;

/** Where a stage's products came from. */
public enum StageOrigin {
  HERE("here"),
  STORE("store"),
  COMPUTED("computed");

  private final String word;

  StageOrigin(String word) {
    this.word = word;
  }

  public String word() {
    return word;
  }
}
