package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.IntPredicate;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.trip.ReachAnswer;
import org.scarpway.reach.trip.ReachSolver;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.product.AuditTable;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.SiteReach;
import org.scarpway.site.SiteReachRows;
import org.scarpway.vehicle.Walker;
import org.scarpway.vehicle.Walking;

/** The stage reach/NAME/: one reach question, how far the crew can go and still come home. */
final class ReachTask extends QuestionTask<ReachResult> {
  private static final int VERSION = 23;

  private final ReachRequest request;
  private final String vehicle;
  private final List<ReachRequest.Target> targets;
  private final Supplier<TraversalInput> ground;
  private final Supplier<WalkHome> walkHome;
  private final ReachProducts products;
  private final StageKey key;
  private final StageKey fronts;
  private final KeptSiteReach keptFigures;
  private final KeptReach kept;
  private final StageKey rules;

  /**
   * @param mobilityOf key of the mobility of a vehicle by its name
   * @param notShown names of the vehicle's limits that the cells do not resolve
   * @param walker costs on foot; evaluated for the home rule walk-back only
   */
  ReachTask(
      OpenJob job,
      Job.ReachEntry entry,
      Function<String, StageKey> mobilityOf,
      StageKey hazard,
      Supplier<TraversalInput> ground,
      Supplier<String> notShown,
      Supplier<Walking> walker) {
    super(job, "reach/" + entry.name());
    StageKey mobility = mobility(job, entry, mobilityOf);
    Places.Spot base = job.places().stop(entry.from(), entry.where());
    this.request =
        new ReachRequest(
            entry.name(),
            entry.from(),
            base.xM(),
            base.yM(),
            entry.budget(),
            entry.home(),
            entry.bands(),
            entry.stayS(),
            entry.rescue(),
            entry.reserves(),
            entry.drivenAgain(),
            entry.beyondBudget());
    this.vehicle = entry.vehicle();
    this.targets =
        job.places().targets().stream()
            .map(t -> t.stayS() > 0 ? t : t.withStay(entry.stayS()))
            .toList();
    this.ground = ground;
    boolean walks = entry.home() == ReachRequest.HomeRule.WALK_BACK;
    List<WalkHome.Refuge> refuges = new ArrayList<>();
    for (String name : entry.refuges()) {
      Places.Spot s = job.places().stop(name, entry.where());
      refuges.add(new WalkHome.Refuge(name, s.xM(), s.yM()));
    }
    Walker bounded = JobVehicles.walker(job.job(), entry);
    this.walkHome = () -> walks ? WalkHome.of(bounded, walker.get(), refuges) : null;
    this.products =
        new ReachProducts(job.spec(), job.job().dem().body(), () -> job.stages().frame(), notShown);
    this.key =
        StageKey.of("reach", VERSION)
            .add(mobility)
            .add("request", request)
            .add("targets", targets)
            .add("walker", walks ? JobVehicles.walker(job.job(), entry) : "none")
            .add("refuges", refuges)
            .add("ground on foot", walks ? hazard.hex() : "none")
            .build();
    this.fronts =
        StageKey.of("fronts of reach", VERSION)
            .add(mobility)
            .add("base", base.xM() + " " + base.yM())
            .add("home", entry.home())
            .add("walker", walks ? JobVehicles.walker(job.job(), entry) : "none")
            .add("refuges", refuges)
            .add("ground on foot", walks ? hazard.hex() : "none")
            .build();
    this.keptFigures =
        new KeptSiteReach(
            job.workers().memory(),
            decisive("site figures of reach", entry, mobility, hazard, refuges),
            entry.name());
    this.kept =
        new KeptReach(
            job.workers().memory(),
            job.spec(),
            decisive("answer of reach", entry, mobility, hazard, refuges));
    this.rules = rules(entry, mobility, hazard, refuges, 0, 0);
  }

  /** Key over the ground of the vehicle, of a pair of both. */
  private static StageKey mobility(
      OpenJob job, Job.ReachEntry entry, Function<String, StageKey> of) {
    StageKey first = of.apply(entry.vehicle());
    String second = entry.rescue().second();
    return second.isEmpty()
        ? first
        : StageKey.of("pair", 1)
            .add(first)
            .add("second ground", of.apply(second).hex())
            .add("second", JobVehicles.vehicle(job.job(), second))
            .build();
  }

  ReachRequest request() {
    return request;
  }

  /**
   * What coming home from a place by the rules of the question depends on: all but its name, stay,
   * bands, targets and number of trips driven again.
   */
  StageKey rules() {
    return rules;
  }

  /** Key over all that an answer depends on but the question's name and its bands. */
  private StageKey decisive(
      String of,
      Job.ReachEntry entry,
      StageKey mobility,
      StageKey hazard,
      List<WalkHome.Refuge> refuges) {
    return StageKey.of(of, VERSION)
        .add(rules(entry, mobility, hazard, refuges, request.stayS(), request.drivenAgain()))
        .add("targets", targets)
        .build();
  }

  /** Key over the base, home rule, limits and reserves, and the ground they hold on. */
  private StageKey rules(
      Job.ReachEntry entry,
      StageKey mobility,
      StageKey hazard,
      List<WalkHome.Refuge> refuges,
      double stayS,
      int drivenAgain) {
    boolean walks = entry.home() == ReachRequest.HomeRule.WALK_BACK;
    return StageKey.of("rules of reach", VERSION)
        .add(mobility)
        .add("request", decisive(request, stayS, drivenAgain))
        .add("walker", walks ? JobVehicles.walker(job.job(), entry) : "none")
        .add("refuges", refuges)
        .add("ground on foot", walks ? hazard.hex() : "none")
        .build();
  }

  /**
   * The request without its name and its bands' labels and amounts. The quantity of bands stays,
   * since the ways of least energy or distance that it asks for may decide further cells.
   */
  private static ReachRequest decisive(ReachRequest r, double stayS, int drivenAgain) {
    List<ReachRequest.Band> quantity =
        r.bands().stream().limit(1).map(b -> new ReachRequest.Band("", b.quantity(), 0)).toList();
    return new ReachRequest(
        "",
        r.baseName(),
        r.baseXM(),
        r.baseYM(),
        r.budget(),
        r.home(),
        quantity,
        stayS,
        r.rescue(),
        r.reserves(),
        drivenAgain,
        r.beyondBudget());
  }

  @Override
  public StageKey key() {
    return key;
  }

  /** Returns the input of the question; the stages it rests on must be finished. */
  ReachInput input() {
    return new ReachInput(request, ground.get(), walkHome.get(), targets);
  }

  @Override
  public StageKey fronts() {
    return fronts;
  }

  private ReachAnswer answer() {
    ReachAnswer answer =
        ReachSolver.answer(
            request, ground.get(), walkHome.get(), targets, job.workers(), job.progress());
    AuditTable.require("reach '" + request.name() + "'", answer.drivenAgain());
    return answer;
  }

  @Override
  Answer<ReachResult> solve(Path dir) {
    ReachSolver.bandQuantity(request);
    List<String> files =
        rasters().stream()
            .filter(p -> !p.name().equals(ReachProducts.BAND))
            .flatMap(p -> p.files().stream())
            .toList();
    KeptReach.Found before = kept.putInto(dir, files);
    if (before != null) {
      return products.banded(before.rest(), before.amounts(), request, vehicle);
    }
    ReachAnswer answer = answer();
    return new Answer<>() {
      @Override
      public ReachResult rows(int firstRow, int rows) {
        return answer.rows(firstRow, rows);
      }

      @Override
      public void written(Path to) {
        ReachRest rest = ReachRest.of(answer.rows(0, 1));
        kept.keep(to, files, new KeptReach.Found(rest, answer.bandAmounts()));
      }
    };
  }

  @Override
  public StageKey kept() {
    return kept.key();
  }

  @Override
  List<RasterProduct<ReachResult, ?>> rasters() {
    return products.rasters(request, vehicle);
  }

  @Override
  int areas() {
    return request.bands().size();
  }

  @Override
  IntPredicate inArea(int area, ReachResult rows) {
    byte[] band = rows.band().values();
    return i -> band[i] > 0 && band[i] <= area + 1;
  }

  @Override
  void writePolygons(Path dir, ReachResult result, List<CellSet> areas) {
    products.writeBands(dir, result, areas);
  }

  @Override
  void writeRest(Path dir, ReachResult result) {
    products.writeRest(dir, result);
  }

  /**
   * Returns the reach figures of the question's site as kept from an earlier run, else computed
   * strip by strip.
   *
   * @param finished folder of the finished products, or null if there are none; the question is
   *     then solved here
   */
  SiteReach siteReach(Path finished) {
    return keptFigures.or(
        () -> {
          if (finished != null) {
            return products.siteReach(finished, request, vehicle, job.strips());
          }
          SiteReach site = siteReach(answer());
          job.workers().memory().freeScratch();
          return site;
        });
  }

  private SiteReach siteReach(ReachAnswer answer) {
    SiteReachRows all = new SiteReachRows(job.spec());
    job.strips().each((firstRow, rows) -> all.add(answer.rows(firstRow, rows), firstRow));
    return all.site();
  }

  @Override
  public ReachResult load(Path dir) {
    return ReachProducts.shown(dir, request, vehicle, job.strips().shown());
  }
}
