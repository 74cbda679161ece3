package org.scarpway.run;

/** Where a stage's products came from. */
enum ComeFrom {
  HERE("here"),
  STORE("store"),
  COMPUTED("computed");

  private final String word;

  ComeFrom(String word) {
    this.word = word;
  }

  String word() {
    return word;
  }
}
