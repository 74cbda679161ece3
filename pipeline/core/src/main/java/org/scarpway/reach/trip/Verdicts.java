package org.scarpway.reach.trip;

import org.scarpway.stage.Bytes;
import org.scarpway.stage.ScratchFile;

/** State, end code and band of each cell; each cell is written by one thread. */
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
