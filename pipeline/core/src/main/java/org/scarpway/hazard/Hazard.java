package org.scarpway.hazard;

import java.util.BitSet;
import java.util.List;
import java.util.function.Supplier;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * What may stop or harm a vehicle.
 *
 * @param hazard01 0 none to 1 certain, the largest of its causes; 1 where the ground is not known
 * @param causes one bit per {@link Cause} whose own hazard is at least {@link #CONTRIBUTES}
 * @param outline gives {@link #keepOut}, made when it is asked for; null where nobody asks
 * @param detourFactor path length over straight length that rocks force, at least 1; infinite where
 *     no way is left, NaN where rocks are not known
 * @param dominant the cause with the largest hazard, as {@link Cause#code}, 0 where there is no
 *     hazard at all; null where not asked for
 * @param boulders rocks in the way; null where the job knows of no rocks
 * @param rocksAssumed cells on which a stated coverage stands in for rocks that are not known; null
 *     for none
 * @param notes what a reviewer must know, one line each
 */
public record Hazard(
    FloatGrid hazard01,
    ByteGrid causes,
    Supplier<Geometry> outline,
    FloatGrid detourFactor,
    ByteGrid dominant,
    Boulders boulders,
    BitSet rocksAssumed,
    List<String> notes) {

  /**
   * Rocks that a vehicle must drive round.
   *
   * @param hitsPerKm met per km driven straight on, NaN where not known
   * @param sidestepM out of the way of one, on the mean
   * @param slowM mean free path below which ground is slow at best
   * @param noGoM mean free path below which it is no-go
   */
  public record Boulders(FloatGrid hitsPerKm, FloatGrid sidestepM, double slowM, double noGoM) {}

  /** Half of the value that counts as certain: below it a cause is background. Own choice. */
  public static final double CONTRIBUTES = 0.5;

  public Hazard {
    notes = List.copyOf(notes);
  }

  /** Without what only people look at. */
  public Hazard(FloatGrid hazard01, ByteGrid causes, Geometry keepOut, FloatGrid detourFactor) {
    this(hazard01, causes, () -> keepOut, detourFactor, null, null, null, List.of());
  }

  /** Rocks in the way per km driven straight on; null where the job knows of no rocks. */
  public FloatGrid hitsPerKm() {
    return boulders == null ? null : boulders.hitsPerKm();
  }

  /** The keep-out ground with its margin in the CRS of the grid, may be empty. */
  public Geometry keepOut() {
    return outline.get();
  }

  /** Causes in the order of their bits. */
  public enum Cause {
    SLOPE,
    STEP,
    ROUGHNESS,
    ROCKS,
    KEEP_OUT,
    VOID,
    /** In a gap that is too narrow, see {@link MinimumGap}. */
    NARROW,
    /** In a closed pocket without room to turn. */
    POCKET;

    public int bit() {
      return 1 << ordinal();
    }

    /** Code of a single cause in a grid where 0 is none. */
    public int code() {
      return ordinal() + 1;
    }
  }
}
