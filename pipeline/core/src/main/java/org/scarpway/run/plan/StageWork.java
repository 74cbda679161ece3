package org.scarpway.run.plan;

import java.util.Locale;
import org.scarpway.config.Job;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.trip.StoredWays;
import org.scarpway.run.ground.AskedWays;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.ReachExtent;
import org.scarpway.run.ground.SortieAsReach;
import org.scarpway.run.ground.StageNeeds;
import org.scarpway.vehicle.Vehicle;

/**
 * How much a stage has to do, so that its time can be told from that of others of its kind.
 *
 * @param stage its name with that of its job
 * @param kind stages of one kind take about the same time for the same work: the kind of stage, for
 *     reach with its home rule, the number of its limits and what of earlier runs it uses again
 * @param work number of cells, each counted as often as the stage goes over it
 * @param diskCells number of cells that its rasters have values in
 */
public record StageWork(String stage, String kind, double work, double diskCells) {
  /** The reading of the job and the checks before its first stage. */
  public static final String OPENING = "opening";

  /** Share of a front's work on a cell that a question takes on any cell of the ground. */
  private static final double ELSEWHERE = 0.6;

  /** Work of a front beside which a stop anywhere on the way has to be looked at. */
  private static final double WITH_STOPS = 1.8;

  /** Share of the work that is left where wavefronts of earlier runs are used again. */
  private static final double BESIDE_FRONTS = 0.6;

  /** Share of the work that is left where all but the bands is. */
  private static final double OF_BANDS = 0.1;

  /** Share of the bytes of a cell in reach that any other cell takes. */
  private static final double BYTES_ELSEWHERE = 0.25;

  public static StageWork of(OpenJob open, String id) {
    Job job = open.job();
    double cells = open.spec().cells();
    String stage = job.name() + " " + id;
    String kind = StageNeeds.kind(id);
    String name = id.substring(Math.min(id.length(), kind.length() + 1));
    return switch (kind) {
      case "reach" ->
          job.reach().stream()
              .filter(r -> r.name().equals(name))
              .findFirst()
              .map(r -> reach(open, r, stage, "reach"))
              .orElse(new StageWork(stage, kind, cells, cells));
      case "corridor" ->
          job.corridors().stream()
              .filter(c -> c.name().equals(name))
              .findFirst()
              .map(c -> corridor(c, stage, cells))
              .orElse(new StageWork(stage, kind, cells, cells));
      case "sortie" ->
          job.sorties().stream()
              .filter(s -> s.name().equals(name))
              .findFirst()
              .map(s -> reach(open, SortieAsReach.of(s), stage, kind).andLegs(s))
              .orElse(new StageWork(stage, kind, cells, cells));
      case "slope-error" ->
          new StageWork(stage, kind, cells * job.terrain().monteCarlo().realisations(), cells);
      case "light", "contact" -> new StageWork(stage, kind, cells * job.light().azimuths(), cells);
      default -> new StageWork(stage, kind, cells, cells);
    };
  }

  private static StageWork reach(OpenJob open, Job.ReachEntry r, String stage, String of) {
    double cells = open.spec().cells();
    ReachExtent extent = ReachExtent.of(open.job(), open.spec(), open.places(), r);
    StoredWays ways = AskedWays.of(open.job(), r, extent);
    double fronts =
        ways.timed().fronts() * extent.frontCells()
            + ways.other().fronts() * extent.otherFrontCells();
    boolean stops = r.home() != HomeRule.NONE && r.home() != HomeRule.DRIVE_BACK;
    int limits = limits(JobVehicles.vehicle(open.job(), r.vehicle()), r);
    String kind =
        String.format(
            Locale.ROOT, "%s %s %d", of, r.home().name().toLowerCase(Locale.ROOT), limits);
    double inReach = extent.cells();
    return new StageWork(
        stage,
        kind,
        (stops ? WITH_STOPS : 1) * fronts + ELSEWHERE * cells,
        inReach + BYTES_ELSEWHERE * (cells - inReach));
  }

  /** The same where wavefronts of earlier runs are used again. */
  StageWork besideFronts() {
    return new StageWork(stage, kind + " kept", BESIDE_FRONTS * work, diskCells);
  }

  /** The same where all but the bands of a question is used again. */
  StageWork ofBands() {
    return new StageWork(stage, kind + " bands", OF_BANDS * work, diskCells);
  }

  /** The same with the ways from every stop to every other. */
  private StageWork andLegs(Job.SortieEntry s) {
    return new StageWork(stage, kind, work * (1 + 0.5 * s.stops().size()), diskCells);
  }

  private static int limits(Vehicle vehicle, Job.ReachEntry r) {
    boolean energy = r.budget().energyJ() != null || vehicle.batteryKwh() != null;
    boolean time =
        r.budget().timeS() != null || r.budget().lifeSupportS() != null || vehicle.crew() != null;
    int limits = (energy ? 1 : 0) + (time ? 1 : 0) + (r.budget().distanceM() != null ? 1 : 0);
    return Math.max(1, limits);
  }

  private static StageWork corridor(Job.CorridorEntry c, String stage, double cells) {
    int stops = c.via().size();
    int legs = c.anyOrder() ? stops * (stops - 1) / 2 : stops - 1;
    int times = Math.max(1, legs) * (1 + c.tradeOffs()) + c.alternatives();
    return new StageWork(stage, "corridor", times * cells, cells);
  }
}
