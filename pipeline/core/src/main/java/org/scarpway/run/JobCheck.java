package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.DemReader;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.RescueTime;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.unit.BaseOnFoot;
import org.scarpway.run.unit.PlaceGround;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/** Checks everything about a job that can be checked without writing anything. */
public final class JobCheck {
  private JobCheck() {}

  /**
   * Checks the jobs of a file and prints one line for each sound job, and its warnings.
   *
   * @throws org.scarpway.stage.UserError with every problem of the files and of the places on the
   *     ground at once
   */
  public static void check(Path jobFile, Map<String, String> overrides, PrintStream out) {
    RasterIo io = RasterIos.best();
    FileDigests files = new FileDigests();
    for (Job job : read(jobFile, overrides, io)) {
      try (Workers workers = new Workers(Runtime.getRuntime().availableProcessors())) {
        OpenJob open = OpenJob.openToCheck(job, io, files, workers, Progress.NONE);
        GridSpec spec = open.spec();
        List<String> warnings = new ArrayList<>(open.checkHeights());
        PlaceGround ground = new PlaceGround(open);
        List<String> mistakes = new ArrayList<>(open.places().outside());
        mistakes.addAll(Preflight.mistakes(open, ground));
        UserError.throwAll(mistakes);
        warnings.addAll(Preflight.deadTargets(open, ground));
        warnings.addAll(BaseOnFoot.notes(open, ground));
        warnings.addAll(open.stages().warnings(open.job().vehicles()));
        warnings.addAll(usedUp(job, spec));
        out.printf(
            Locale.ROOT,
            "%s: ok. %d x %d cells of %.3f x %.3f m on %s, %s%n",
            job.name(),
            spec.rows(),
            spec.cols(),
            spec.cellXM(),
            spec.cellYM(),
            job.dem().body().name(),
            CrsText.read(spec.crsWkt()).name());
        warnings.stream().distinct().forEach(w -> out.println("warning: " + w));
      }
    }
  }

  /** Returns one line for each question whose rescue time leaves no time to drive. */
  private static List<String> usedUp(Job job, GridSpec spec) {
    double cellM = Math.min(spec.cellXM(), spec.cellYM());
    List<String> lines = new ArrayList<>();
    for (Job.ReachEntry r : job.reach()) {
      String line =
          RescueTime.usedUp(
              r.home(),
              r.budget(),
              r.reserves(),
              r.rescue(),
              JobVehicles.vehicle(job, r.vehicle()),
              cellM);
      if (line != null) {
        lines.add("reach '" + r.name() + "': " + line);
      }
    }
    return lines;
  }

  /**
   * Reads the jobs. If the files have errors, places outside the ground are reported together with
   * them.
   */
  private static List<Job> read(Path jobFile, Map<String, String> overrides, RasterIo io) {
    List<JobReader.Sited> sited = new ArrayList<>();
    try {
      return JobReader.readAll(jobFile, overrides, sited::add);
    } catch (UserError e) {
      Set<String> lines = new LinkedHashSet<>(List.of(e.getMessage()));
      for (JobReader.Sited s : sited) {
        try {
          PlaceFrame frame = DemReader.frame(s.dem(), io);
          lines.addAll(new Places(s.bases(), s.targets(), frame).outside());
        } catch (UserError ofGround) {
          lines.add(ofGround.getMessage());
        }
      }
      throw new UserError(String.join("\n", lines));
    }
  }
}
