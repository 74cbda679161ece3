package org.scarpway.stage;

/** Receives progress reports from a stage. Calls may come from any thread. */
public interface Progress {
  /** Ignores all reports. */
  Progress NONE =
      new Progress() {
        @Override
        public void begin(String what, long total) {}

        @Override
        public void advance(long done) {}

        @Override
        public void end() {}
      };

  /** Work on {@code total} cells begins; {@code total} is 0 if unknown. */
  void begin(String what, long total);

  /** {@code done} more cells are finished. */
  void advance(long done);

  /** The work that was begun last is finished. */
  void end();

  /** Returns the progress of a part of the work that was begun last. */
  default Progress part() {
    return new Progress() {
      @Override
      public void begin(String what, long total) {}

      @Override
      public void advance(long done) {
        Progress.this.advance(done);
      }

      @Override
      public void end() {}
    };
  }
}
