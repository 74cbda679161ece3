package org.scarpway.reach.trip;

import org.scarpway.reach.question.BandAmounts;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.ScratchFile;

/** State, end code and band amount of each cell; each cell is written by one thread. */
final class Verdicts {
  final Bytes state;
  final Bytes binding;

  /** Null if no bands are asked for. */
  final BandAmounts amounts;

  Verdicts(int cells, boolean banded, ScratchFile file) {
    state = Bytes.of(cells, file);
    binding = Bytes.of(cells, file);
    amounts = banded ? BandAmounts.none(cells, file) : null;
  }
}
