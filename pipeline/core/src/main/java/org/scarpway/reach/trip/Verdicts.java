package org.scarpway.reach.trip;

import org.scarpway.stage.Bytes;
import org.scarpway.stage.ScratchFile;

/** What is said of each cell; written by one thread for each. */
final class Verdicts {
  final Bytes state;
  final Bytes binding;
  final Bytes band;

  Verdicts(int cells, ScratchFile file) {
    state = Bytes.of(cells, file);
    binding = Bytes.of(cells, file);
    band = Bytes.of(cells, file);
  }
}
