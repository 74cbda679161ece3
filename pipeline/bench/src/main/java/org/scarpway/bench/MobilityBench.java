package org.scarpway.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.locationtech.jts.geom.GeometryFactory;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.HornGradient;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityStage;
import org.scarpway.vehicle.Vehicle;

/**
 * How long does a vehicle take to be judged on every cell and all 32 headings, with its wheels set
 * on the ground (cells of 1 m) and by closed forms (cells of 5 m), on one thread and on two? The
 * baseline sets the same wheels and body in a plain way: rotation and bilinear weights afresh for
 * every cell and heading. Score over side x side x 32 is the time per cell and heading.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(value = 1, jvmArgs = "-Xmx3g")
@Warmup(iterations = 1)
@Measurement(iterations = 2)
public class MobilityBench {
  @Param({"1000", "4000"})
  int side;

  @Param({"1", "2"})
  int threads;

  @Param({"1.0", "5.0"})
  double cellM;

  private final Vehicle vehicle =
      new Vehicle(
          "bench",
          "",
          4200.0,
          new Vehicle.Chassis(4.6, 3.2, 0.42, 0.6, 0.6, 1.3),
          new Vehicle.Wheels(List.of(1.7, 0.0, -1.7), 2.6, 0.45, 0.35),
          new Vehicle.Limits(20.0, 20.0, 15.0, 0.3, 5.0),
          new Vehicle.SlowFrom(12.0, 0.15, 0.10),
          new Vehicle.Drive(4.2, 0.8, 9000.0, 0.65, 0.2, 1800.0, 0.12),
          null,
          null,
          null);
  private Terrain terrain;
  private Hazard hazard;
  private Workers workers;
  private PlainPose plain;

  @Setup(Level.Trial)
  public void ground() {
    GridSpec spec = new GridSpec(side, side, cellM, cellM, 0, side * cellM, "");
    FloatGrid height = FloatGrid.empty(spec);
    FloatGrid east = FloatGrid.empty(spec);
    FloatGrid north = FloatGrid.empty(spec);
    for (int i = 0; i < spec.cells(); i++) {
      double x = cellM * (i % side);
      double y = cellM * Math.floorDiv(i, side);
      height.values()[i] =
          (float)
              (12 * Math.sin(x * 0.013) * Math.cos(y * 0.017) + 0.05 * Math.sin(x * 1.3 + 0.7 * y));
    }
    HornGradient.fill(
        height.values(), side, side, 0, side, cellM, cellM, east.values(), north.values());
    FloatGrid small = FloatGrid.empty(spec);
    FloatGrid one = FloatGrid.empty(spec);
    java.util.Arrays.fill(small.values(), 0.05f);
    java.util.Arrays.fill(one.values(), 1);
    terrain = new Terrain(height, small, small, east, north, small, small, small, small);
    hazard =
        new Hazard(
            small, ByteGrid.empty(spec), new GeometryFactory().createGeometryCollection(), one);
    workers = new Workers(threads);
    plain = new PlainPose(vehicle, spec, height.values());
  }

  @TearDown(Level.Trial)
  public void close() {
    workers.close();
  }

  @Benchmark
  public Mobility stage() {
    return MobilityStage.compute(terrain, hazard, vehicle, Body.MOON, workers, Progress.NONE);
  }

  /** The pose alone, without limits, speed and energy: less work than the stage does. */
  @Benchmark
  public double plainPose() {
    double[] byBand = new double[threads * 8];
    int band = (side + byBand.length - 1) / byBand.length;
    List<Runnable> tasks = new ArrayList<>();
    for (int i = 0; i < byBand.length; i++) {
      int b = i;
      int from = Math.min(side, b * band);
      tasks.add(() -> byBand[b] = plain.rows(from, Math.min(side, from + band)));
    }
    workers.all(tasks);
    double sum = 0;
    for (double v : byBand) {
      sum += v;
    }
    return sum;
  }
}
