package org.scarpway.hazard;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * Hazard of the terrain for a vehicle, with its causes.
 *
 * @param hazard01 hazard from 0 (none) to 1 (certain), the maximum over its causes; 1 where the
 *     ground is unknown
 * @param causes one bit per {@link Cause} whose own hazard is at least {@link #CONTRIBUTES}
 * @param outline supplies {@link #keepOut}, computed on first request; may be empty
 * @param detourFactor ratio of path length to straight length caused by rocks, at least 1; infinite
 *     where rocks leave no path, NaN where rocks are unknown
 * @param dominant the cause with the largest hazard, as {@link Cause#code}, 0 where there is no
 *     hazard
 * @param boulders rocks in the way; empty if the job has no rock data
 * @param rocksAssumed cells on which a stated coverage replaces missing rock data
 * @param notes notes for the reviewer, one line each
 */
public record Hazard(
    FloatGrid hazard01,
    ByteGrid causes,
    Supplier<Geometry> outline,
    FloatGrid detourFactor,
    ByteGrid dominant,
    Optional<Boulders> boulders,
    BitSet rocksAssumed,
    List<String> notes) {

  /**
   * Rocks that a vehicle must drive around.
   *
   * @param hitsPerKm expected rocks in the way per km driven straight, NaN where unknown
   * @param sidestepM mean lateral displacement that clears one rock (m)
   * @param slowM mean free path below which ground is slow at best (m)
   * @param noGoM mean free path below which it is no-go (m)
   */
  public record Boulders(FloatGrid hitsPerKm, FloatGrid sidestepM, double slowM, double noGoM) {
    /** Checks that both layers have the same cells. */
    public Boulders {
      hitsPerKm.spec().requireCellsOf(sidestepM.spec());
    }
  }

  /**
   * Smallest hazard at which a cause is reported: half of the value that is treated as certain. Own
   * choice.
   */
  public static final double CONTRIBUTES = 0.5;

  /** Checks that every layer has the same cells, and copies the notes. */
  public Hazard {
    hazard01.spec().requireCellsOf(causes.spec(), detourFactor.spec(), dominant.spec());
    boulders.ifPresent(b -> causes.spec().requireCellsOf(b.hitsPerKm().spec()));
    notes = List.copyOf(notes);
  }

  /** Creates a hazard without rocks, in which no cause is named as the largest. */
  public Hazard(FloatGrid hazard01, ByteGrid causes, Geometry keepOut, FloatGrid detourFactor) {
    this(
        hazard01,
        causes,
        () -> keepOut,
        detourFactor,
        ByteGrid.empty(hazard01.spec()),
        Optional.empty(),
        new BitSet(),
        List.of());
  }

  /** Returns the same hazard with rocks in the way. */
  public Hazard with(Boulders rocks, FloatGrid detourAmongRocks) {
    return new Hazard(
        hazard01,
        causes,
        outline,
        detourAmongRocks,
        dominant,
        Optional.of(rocks),
        rocksAssumed,
        notes);
  }

  /** Keep-out areas including their margin, in the CRS of the grid; may be empty. */
  public Geometry keepOut() {
    return outline.get();
  }

  /** Causes in the order of their bits. */
  public enum Cause {
    /** Slope of the ground. */
    SLOPE,
    /** Height steps. */
    STEP,
    /** Roughness over the footprint. */
    ROUGHNESS,
    /** Rocks by their coverage. */
    ROCKS,
    /** Keep-out polygons with their margin. */
    KEEP_OUT,
    /** Ground that is not known. */
    VOID,
    /** Cell in a gap that is too narrow, see {@link MinimumGap}. */
    NARROW,
    /** Cell in a closed pocket without room to turn. */
    POCKET;

    /** Bit of the cause in {@link Hazard#causes}. */
    public int bit() {
      return 1 << ordinal();
    }

    /** Code of a single cause in a grid in which 0 means none. */
    public int code() {
      return ordinal() + 1;
    }
  }
}
