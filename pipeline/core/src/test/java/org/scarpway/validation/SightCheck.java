package org.scarpway.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.cli.Main;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.vehicle.Limit;

/** Stopping within sight as a whole job on level ground: speed, limit that binds, and its name. */
class SightCheck {
  private static final String SOURCE = "v t + v2 / 2a = sight, braking at constant deceleration";

  @TempDir Path dir;

  private String scarpway(Object... args) {
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    PrintStream before = System.out;
    try {
      System.setOut(new PrintStream(said, true, StandardCharsets.UTF_8));
      String[] texts = new String[args.length];
      for (int i = 0; i < args.length; i++) {
        texts[i] = args[i].toString();
      }
      assertEquals(0, Main.execute(texts));
    } finally {
      System.setOut(before);
    }
    return said.toString(StandardCharsets.UTF_8);
  }

  @Test
  void speedStopsWithinSightAndIsNamedForIt() throws Exception {
    StringBuilder flat = new StringBuilder("ncols 20\nnrows 20\nxllcorner 0\nyllcorner 0\n");
    flat.append("cellsize 5\nNODATA_value -9999\n");
    for (int row = 0; row < 20; row++) {
      flat.append("100 ".repeat(20)).append('\n');
    }
    Files.writeString(dir.resolve("flat.asc"), flat);
    Files.writeString(
        dir.resolve("cart.yaml"),
        """
        scarpway: 1
        vehicle: cart
        body: {length_m: 3, width_m: 2, clearance_m: 0.4}
        limits: {climb_deg: 20}
        slow_from: {speed_loss_pct: 50}
        drive: {speed_ms: 4, crawl_ms: 0.5, sight_m: 4, brake_ms2: 0.5, reaction_s: 1}
        """);
    Path job = dir.resolve("job.yaml");
    Files.writeString(
        job,
        """
        scarpway: 1
        job: flat
        body: moon
        dem: {source: flat.asc, units: metres}
        vehicles: [cart.yaml]
        """);
    scarpway("run", job, "--out", dir, "--quiet");
    Path cart = dir.resolve("flat/mobility/cart");
    int middle = 10 * 20 + 10;
    Validation.near(
        "4-sight-speed",
        "whole job, m/s on level ground: 4 m of sight, 0.5 m/s2, 1 s to react",
        SOURCE,
        "C",
        0.5 * (Math.sqrt(17) - 1),
        RasterIos.best().readFloats(cart.resolve("speed_ms.tif")).values()[middle],
        2e-3);
    byte limit = RasterIos.best().readBytes(cart.resolve("limit.tif")).values()[middle];
    String told = scarpway("explain", job, 52.5, 47.5, "--out", dir);
    Validation.holds(
        "4-sight-named",
        "stopping sight binds where it takes 61 % of the speed: limit.tif and explain say so",
        SOURCE,
        "C",
        limit == Limit.SIGHT.code()
            && told.contains("stopping sight binds")
            && told.matches(
                "(?s).*stopping sight +speed lost straight up the slope[^\\n]*got 60\\.9\\d .*"));
    String areas = Files.readString(cart.resolve("areas.csv"));
    Validation.holds(
        "4-sight-slow",
        "all of that ground is slow for want of sight, and areas.csv says so",
        SOURCE,
        "C",
        areas.matches("(?s).*slow by cause,loss of speed to stop within sight,\\d+,.*"));
  }
}
