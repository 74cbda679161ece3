package org.scarpway.bench;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.scarpway.terrain.Footprint;
import org.scarpway.terrain.FootprintPlane;
import org.scarpway.terrain.HeightScale;
import org.scarpway.terrain.HornGradient;
import org.scarpway.terrain.RileyRuggedness;
import org.scarpway.terrain.SlopeAspect;
import org.scarpway.terrain.StepHeight;

/**
 * How long do the terrain kernels take for 1000 x 2000 cells on one core, and does the footprint
 * plane's time depend on its radius? Decided for octagon sums kept up to date along the rows
 * instead of a window loop.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class SlopeBench {
  private static final int ROWS = 1000;
  private static final int COLS = 2000;

  private final float[] heightM = new float[ROWS * COLS];
  private final float[] gradEast = new float[ROWS * COLS];
  private final float[] gradNorth = new float[ROWS * COLS];
  private final float[] one = new float[ROWS * COLS];
  private final float[] two = new float[ROWS * COLS];
  private final float[] three = new float[ROWS * COLS];

  /** Radius of the footprint in cells. */
  @State(Scope.Benchmark)
  public static class Radius {
    @Param({"1", "5", "50"})
    int cells;
  }

  @Setup
  public void ground() {
    for (int i = 0; i < heightM.length; i++) {
      int col = i % COLS;
      int row = i / COLS;
      heightM[i] =
          (float) (40 * Math.sin(col * 0.013) * Math.cos(row * 0.017) + Math.sin(col * 1.3 + row));
    }
    HornGradient.fill(heightM, ROWS, COLS, 0, ROWS, 5, 5, gradEast, gradNorth);
  }

  @Benchmark
  public float[] hornSlope() {
    for (int row = 0; row < ROWS; row++) {
      HornGradient.fill(heightM, ROWS, COLS, row, row + 1, 5, 5, gradEast, gradNorth);
      SlopeAlone.fill(gradEast, gradNorth, COLS, row, row + 1, one);
    }
    return one;
  }

  @Benchmark
  public float[] slopeAndAspect() {
    SlopeAspect.fill(gradEast, gradNorth, COLS, 0, ROWS, one, two);
    return two;
  }

  @Benchmark
  public float[] riley() {
    RileyRuggedness.fill(heightM, ROWS, COLS, 0, ROWS, one);
    return one;
  }

  @Benchmark
  public float[] step() {
    StepHeight.fill(heightM, ROWS, COLS, 0, ROWS, 5, 5, 5, gradEast, gradNorth, one);
    return one;
  }

  @Benchmark
  public float[] footprintPlane(Radius radius) {
    Footprint footprint = Footprint.disc(radius.cells, 1, 1);
    HeightScale scale = HeightScale.of(-50, 50, footprint);
    FootprintPlane.fill(heightM, ROWS, COLS, 0, ROWS, footprint, scale, 5, 5, one, two, three);
    return one;
  }
}
