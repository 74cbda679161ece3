package org.scarpway.run.progress;

/** The origin of a stage's products. */
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
