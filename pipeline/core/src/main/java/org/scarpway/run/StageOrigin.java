package org.scarpway.run;

/** Where a stage's products came from. */
enum StageOrigin {
  HERE("here"),
  STORE("store"),
  COMPUTED("computed");

  private final String word;

  StageOrigin(String word) {
    this.word = word;
  }

  String word() {
    return word;
  }
}
