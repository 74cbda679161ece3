package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.trip.CampRingsSolver;
import org.scarpway.reach.trip.DayRingsSolver;
import org.scarpway.reach.trip.PlaceWays;
import org.scarpway.reach.trip.RingsAnswer;
import org.scarpway.report.SortieAnswer;
import org.scarpway.report.SortieData;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.store.StageKey;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walking;

/** The stage sortie/NAME/: a sortie of days in which the crew lives in the vehicle. */
final class SortieTask extends QuestionTask<SortieData> {
  private static final int VERSION = 6;

  private static final double NO_LIMIT = Double.POSITIVE_INFINITY;

  private final Job.SortieEntry entry;
  private final DayRingsRequest request;
  private final SortieQuestion question;
  private final Supplier<TraversalInput> ground;
  private final Supplier<WalkHome> walkHome;
  private final SortieProducts products;
  private final StageKey key;

  /**
   * @param mobility key of the vehicle's mobility
   * @param hazard key of the hazard, for ground on foot
   * @param walker costs on foot; evaluated for the home rule walk-back only
   */
  SortieTask(
      OpenJob job,
      Job.SortieEntry entry,
      StageKey mobility,
      StageKey hazard,
      Supplier<TraversalInput> ground,
      Supplier<Walking> walker) {
    super(job, "sortie/" + entry.name());
    this.entry = entry;
    this.ground = ground;
    this.request = request(job, entry);
    boolean walks = entry.home() == HomeRule.WALK_BACK;
    List<WalkHome.Refuge> refuges = new ArrayList<>();
    for (String name : entry.refuges()) {
      Places.Spot s = job.places().stop(name, entry.where());
      refuges.add(new WalkHome.Refuge(name, s.xM(), s.yM()));
    }
    this.walkHome = () -> walks ? WalkHome.of(job.job().walker(), walker.get(), refuges) : null;
    this.products =
        new SortieProducts(job.spec(), job.job().dem().body(), () -> job.stages().frame());
    this.question = question(job, entry);
    this.key =
        StageKey.of("sortie", VERSION)
            .add(mobility)
            .add("request", request)
            .add("rules", question.rules())
            .add("hours of a day", entry.perDayS())
            .add("stops", question.stops())
            .add("targets", question.targets())
            .add("walker", walks ? job.job().walker() : "none")
            .add("refuges", refuges)
            .add("ground on foot", walks ? hazard.hex() : "none")
            .build();
  }

  private static SortieQuestion question(OpenJob job, Job.SortieEntry entry) {
    Vehicle vehicle = JobVehicles.vehicle(job.job(), entry.vehicle());
    Double hotelW = vehicle.drive() == null ? null : vehicle.drive().hotelW();
    return SortieQuestion.of(
        job,
        entry,
        new SortieQuestion.Limits(
            entry.energyJ() == null ? NO_LIMIT : entry.energyJ(),
            lifeSupportS(vehicle, entry),
            hotelW == null ? 0 : hotelW));
  }

  private static double lifeSupportS(Vehicle vehicle, Job.SortieEntry entry) {
    double lifeS = entry.lifeSupportS() == null ? NO_LIMIT : entry.lifeSupportS();
    return vehicle.crew() == null || vehicle.crew().lifeSupportH() == null
        ? lifeS
        : Math.min(lifeS, 3600 * vehicle.crew().lifeSupportH());
  }

  private static List<DayRingsRequest.Camp> camps(OpenJob job, Job.SortieEntry entry) {
    if (entry.camps() == null) {
      return null;
    }
    List<DayRingsRequest.Camp> all = new ArrayList<>();
    for (String name : entry.camps()) {
      Places.Spot s = job.places().stop(name, entry.where());
      all.add(new DayRingsRequest.Camp(name, s.xM(), s.yM()));
    }
    return all;
  }

  private static DayRingsRequest request(OpenJob job, Job.SortieEntry entry) {
    Places.Spot base = job.places().stop(entry.from(), entry.where());
    Vehicle vehicle = JobVehicles.vehicle(job.job(), entry.vehicle());
    Reserves kept = entry.reserves();
    return new DayRingsRequest(
        entry.name(),
        entry.from(),
        base.xM(),
        base.yM(),
        entry.days(),
        Reserves.less(Math.min(entry.driveS(), entry.perDayS()), kept.timePct()),
        Reserves.less(entry.energyJ() == null ? NO_LIMIT : entry.energyJ(), kept.energyPct()),
        entry.nightChargeJ(),
        Reserves.less(lifeSupportS(vehicle, entry), kept.lifeSupportPct()),
        entry.home(),
        entry.rescue(),
        camps(job, entry));
  }

  @Override
  public StageKey key() {
    return key;
  }

  @Override
  Answer<SortieData> solve(Path dir) {
    TraversalInput input = ground.get();
    WalkHome walk = walkHome.get();
    SortieAnswer plan = null;
    if (!question.stops().isEmpty()) {
      PlaceWays ways =
          PlaceWays.of(request, input, walk, question.cells(), job.workers(), job.progress());
      plan = new SortiePlanning(question, request, ways).answer();
    }
    SortieAnswer planned = plan;
    RingsAnswer rings =
        request.camps() == null
            ? DayRingsSolver.answer(request, input, walk, job.workers(), job.progress())
            : CampRingsSolver.answer(request, input, walk, job.workers(), job.progress());
    return (firstRow, rows) -> new SortieData(rings.rows(firstRow, rows), planned);
  }

  @Override
  List<RasterProduct<SortieData, ?>> rasters() {
    return SortieProducts.rasters(request, entry.vehicle());
  }

  @Override
  int areas() {
    return entry.days();
  }

  @Override
  IntPredicate inArea(int area, SortieData rows) {
    byte[] day = rows.rings().day().values();
    byte[] state = rows.rings().state().values();
    return i -> DayRings.surely(state[i]) && day[i] <= area + 1;
  }

  @Override
  void writePolygons(Path dir, SortieData result, List<CellSet> areas) {
    products.writePolygons(dir, result.rings(), areas);
  }

  @Override
  void writeRest(Path dir, SortieData result) {
    products.writeRest(dir, result);
  }

  @Override
  public SortieData load(Path dir) {
    return SortieProducts.shown(dir, request, entry.vehicle(), job.strips().shown());
  }
}
