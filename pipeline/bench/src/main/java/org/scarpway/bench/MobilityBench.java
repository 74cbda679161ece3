package org.scarpway.bench;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
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
 * baseline is the same maths cell by cell ({@link PlainMobility}; equal results are asserted in its
 * test). Ground: "rolling", where relief under the vehicle stays small, and "boulders", a bump of
 * up to 0.4 m on every tenth cell, where belly and wheels decide. Score over side x side x 32 is
 * the time per cell and heading.
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

  @Param({"rolling", "boulders"})
  String relief;

  private final Vehicle vehicle = vehicle();
  private Terrain terrain;
  private Hazard hazard;
  private Workers workers;
  private PlainMobility plain;

  /** A six-wheeled crewed rover without a soil. */
  static Vehicle vehicle() {
    return new Vehicle(
        "bench",
        "",
        4200.0,
        new Vehicle.Chassis(4.6, 3.2, 0.42, 0.6, 0.6, 1.3),
        rigidWheels(List.of(1.7, 0.0, -1.7), 2.6, 0.45, 0.35),
        new Vehicle.Limits(20.0, 20.0, 15.0, 0.3, 5.0),
        new Vehicle.SlowFrom(12.0, 0.15, 0.10, null, null, null),
        new Vehicle.Drive(4.2, 0.8, 9000.0, 0.65, 0.2, 1800.0, 0.12, 0, 1, null, false, null),
        null,
        null,
        null);
  }

  static Vehicle.Wheels rigidWheels(
      List<Double> axlesM, double trackM, double radiusM, double widthM) {
    List<Double> tracksM = Collections.nCopies(axlesM.size(), trackM);
    return new Vehicle.Wheels(axlesM, tracksM, radiusM, widthM, null, 0.15);
  }

  /** Slopes up to some 15 degrees, with or without boulders. */
  static Terrain terrain(int side, double cellM, boolean boulders) {
    GridSpec spec = new GridSpec(side, side, cellM, cellM, 0, side * cellM, "");
    FloatGrid height = FloatGrid.empty(spec);
    FloatGrid east = FloatGrid.empty(spec);
    FloatGrid north = FloatGrid.empty(spec);
    Random random = new Random(7);
    for (int i = 0; i < spec.cells(); i++) {
      double x = cellM * (i % side);
      double y = cellM * Math.floorDiv(i, side);
      double z =
          12 * Math.sin(x * 0.013) * Math.cos(y * 0.017) + 0.05 * Math.sin(x * 1.3 + 0.7 * y);
      height.values()[i] = (float) z;
      if (boulders && random.nextInt(10) == 0) {
        height.values()[i] += 0.4f * random.nextFloat();
      }
    }
    HornGradient.fill(
        height.values(), side, side, 0, side, cellM, cellM, east.values(), north.values());
    FloatGrid small = FloatGrid.empty(spec);
    Arrays.fill(small.values(), 0.05f);
    return new Terrain(height, small, east, north, small, small, small);
  }

  static Hazard noHazard(GridSpec spec) {
    FloatGrid one = FloatGrid.empty(spec);
    Arrays.fill(one.values(), 1);
    return new Hazard(
        one, ByteGrid.empty(spec), new GeometryFactory().createGeometryCollection(), one);
  }

  @Setup(Level.Trial)
  public void ground() {
    terrain = terrain(side, cellM, relief.equals("boulders"));
    hazard = noHazard(terrain.gradEast().spec());
    workers = new Workers(threads);
    plain = new PlainMobility(vehicle, terrain, Body.MOON);
  }

  @TearDown(Level.Trial)
  public void close() {
    workers.close();
  }

  @Benchmark
  public Mobility stage() {
    return MobilityStage.compute(terrain, hazard, vehicle, Body.MOON, workers, Progress.NONE);
  }

  @Benchmark
  public PlainMobility plain() {
    workers.overRows(side, plain::rows);
    return plain;
  }
}
