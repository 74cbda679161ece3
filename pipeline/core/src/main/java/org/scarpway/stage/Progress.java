package org.scarpway.stage;

/** Where a stage tells how far it is. Calls may come from any thread. */
public interface Progress {
  Progress NONE =
      new Progress() {
        @Override
        public void begin(String what, long total) {}

        @Override
        public void advance(long done) {}

        @Override
        public void end() {}
      };

  /** A piece of work of {@code total} cells begins; {@code total} 0 if unknown. */
  void begin(String what, long total);

  /** {@code done} more cells are finished. */
  void advance(long done);

  void end();
}
