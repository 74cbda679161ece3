package org.scarpway.run.closing;

import java.util.List;
import java.util.Locale;
import org.scarpway.config.Job;
import org.scarpway.report.MapFigures;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.stage.UserError;

/** The files of a job's figures: which there are, and that there are not too many. */
public final class FigureFiles {
  private FigureFiles() {}

  /**
   * Returns their names below the job's folder.
   *
   * @param ids of the stages whose figures are drawn
   */
  public static List<String> names(OpenJob open, List<String> ids) {
    Job job = open.job();
    return job.report().figures() ? MapFigures.names(ids, open.spec(), print(job)) : List.of();
  }

  static MapFigures.Print print(Job job) {
    return new MapFigures.Print(job.report().printScale(), job.report().largePaper());
  }

  /**
   * @throws UserError if a map takes more sheets of paper than anybody would want
   */
  public static void requireFew(OpenJob open) {
    Job.ReportSettings report = open.job().report();
    long sheets = report.figures() ? print(open.job()).sheets(open.spec()) : 0;
    if (sheets > MapFigures.MOST_SHEETS) {
      double scale = report.printScale();
      throw UserError.of(
          report.where(),
          String.format(Locale.ROOT, "print_scale %.0f takes %d sheets a map", scale, sheets),
          "at most " + MapFigures.MOST_SHEETS,
          String.format(
              Locale.ROOT,
              "set report.print_scale to %.0f or more, report.paper to A3, or a smaller dem.window",
              Math.ceil(1.2 * scale * Math.sqrt((double) sheets / MapFigures.MOST_SHEETS))));
    }
  }
}
