package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Computes where a vehicle can go, on which headings, at what speed and at what energy. Cells are
 * evaluated independently, so the result does not depend on the number of threads.
 */
public final class MobilityStage {
  private MobilityStage() {}

  /**
   * Computes mobility on ground without soils by place.
   *
   * @throws org.scarpway.stage.UserError if the vehicle's file lacks what its own blocks need
   */
  public static Mobility compute(
      Terrain terrain,
      Hazard hazard,
      Vehicle vehicle,
      Body body,
      Workers workers,
      Progress progress) {
    return compute(terrain, hazard, vehicle, null, body, workers, progress);
  }

  /**
   * @param soils soil of each cell; null if the vehicle's own soil is everywhere
   * @throws org.scarpway.stage.UserError if the vehicle's file lacks what its own blocks need
   */
  public static Mobility compute(
      Terrain terrain,
      Hazard hazard,
      Vehicle vehicle,
      SoilMap soils,
      Body body,
      Workers workers,
      Progress progress) {
    MobilityCounts all = new MobilityCounts().next(0, terrain.gradEast().spec().rows());
    return compute(
        terrain,
        hazard,
        vehicle,
        soils,
        body,
        UnresolvedRule.SAY,
        HeightTrust.AS_MEASURED,
        all,
        workers,
        progress);
  }

  /**
   * Computes mobility on a strip of the ground. Cells near its first and last row (halo rows) may
   * be wrong and are not counted.
   *
   * @param rule treatment of ground on which the cells do not resolve a limit
   * @param trust required probability that the limits hold, and the error of the heights
   * @param counts running totals over all strips; this call adds its own rows, and the notes report
   *     the totals
   */
  public static Mobility compute(
      Terrain terrain,
      Hazard hazard,
      Vehicle vehicle,
      SoilMap soils,
      Body body,
      UnresolvedRule rule,
      HeightTrust trust,
      MobilityCounts counts,
      Workers workers,
      Progress progress) {
    SoilLimits limits = new SoilLimits(vehicle, soils, body);
    GridSpec spec = terrain.gradEast().spec();
    int cells = spec.cells();
    int[] allowed = new int[cells];
    float[] capMs = new float[cells];
    ByteGrid cls = ByteGrid.empty(spec);
    ByteGrid limit = ByteGrid.empty(spec);
    FloatGrid headingsPct = FloatGrid.empty(spec);
    FloatGrid margin01 = FloatGrid.empty(spec);
    FloatGrid noGo01 = trust.errors() == null ? null : FloatGrid.empty(spec);
    Queue<TackedHeadings.Finds> tacked = new ConcurrentLinkedQueue<>();
    float[] detour = hazard.detourFactor().values();
    WheelLayout layout = CellTraversability.layout(vehicle, spec);
    Allowances allowances = Allowances.of(trust, terrain, layout);
    Queue<SoilJudges> idle = new ConcurrentLinkedQueue<>();

    progress.begin("mobility of " + vehicle.name(), 2L * cells);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          SoilJudges judges = idle.poll();
          if (judges == null) {
            judges =
                new SoilJudges(
                    limits,
                    on -> new CellTraversability(on, terrain, hazard, layout, rule, allowances));
          }
          TackedHeadings.Finds tackedHere = new TackedHeadings.Finds();
          long tackedCells = 0;
          long narrowCells = 0;
          long unresolvedCells = 0;
          long judgedCells = 0;
          long halfUsedCells = 0;
          long[] missing = new long[MobilityCounts.CODES];
          long[] slow = new long[SlowCause.SETS];
          long noGoMillionths = 0;
          long doubtfulCells = 0;
          // Each stretch of columns is done for all rows first: a row mostly reuses the ground of
          // the row above.
          for (int first = 0; first < spec.cols(); first += RowPoseEstimator.LENGTH) {
            int end = Math.min(spec.cols(), first + RowPoseEstimator.LENGTH);
            for (int row = from; row < to; row++) {
              int counted = counts.isOwn(row) ? 1 : 0;
              for (int col = first, cell = row * spec.cols() + first; col < end; col++, cell++) {
                CellTraversability judge = judges.judge(row, col, limits.at(cell));
                allowed[cell] = judge.bits;
                capMs[cell] = (float) judge.capMs;
                cls.values()[cell] = judge.cls;
                limit.values()[cell] = judge.code;
                headingsPct.values()[cell] =
                    judge.cls == 0 ? Float.NaN : (float) (100 * judge.openShare);
                margin01.values()[cell] = (float) judge.margin01;
                if (noGo01 != null) {
                  noGo01.values()[cell] = (float) judge.noGo01;
                  if (judge.cls != 0) {
                    noGoMillionths += counted * Math.round(1e6 * judge.noGo01);
                    doubtfulCells += judge.noGo01 > allowances.tail ? counted : 0;
                  }
                }
                if (judge.tackBits != 0) {
                  tackedHere.add(cell, judge.tackBits, judge.tacks.pathRatio);
                  tackedCells += counted;
                }
                narrowCells += judge.narrow ? counted : 0;
                unresolvedCells += judge.unresolved ? counted : 0;
                judgedCells += judge.cls == 0 ? 0 : counted;
                halfUsedCells += judge.halfUsed() ? counted : 0;
                if (judge.cls == 0) {
                  missing[judge.code] += counted;
                } else if (judge.cls == Mobility.SLOW) {
                  slow[judge.slowCauses] += counted;
                }
              }
            }
          }
          tacked.add(tackedHere);
          counts.add(tackedCells, narrowCells, unresolvedCells, judgedCells);
          counts.addHalfUsed(halfUsedCells);
          counts.addMissing(missing);
          counts.addSlow(slow);
          counts.addNoGo(noGoMillionths, doubtfulCells);
          idle.add(judges);
          progress.advance((long) (to - from) * spec.cols());
        });

    TackedHeadings tacks = TackedHeadings.of(tacked);
    TraversalCost field =
        new TraversalCost(
            workers.memory(),
            spec,
            allowed,
            terrain.gradEast().values(),
            terrain.gradNorth().values(),
            capMs,
            detours(detour) ? detour : null,
            tacks,
            limits.soilOf(),
            limits.tables());
    FloatGrid speedMs = FloatGrid.empty(spec);
    FloatGrid energyJm = FloatGrid.empty(spec);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          for (int cell = from * spec.cols(); cell < to * spec.cols(); cell++) {
            field.fillMeans(cell, speedMs.values(), energyJm.values());
          }
          progress.advance((long) (to - from) * spec.cols());
        });
    progress.end();
    counts.add(terrain, hazard, limits);
    Unresolved unresolved =
        resolution(limits, counts, terrain, layout != null, rule)
            .tell(counts.unresolved(), counts.halfUsed(), counts.judged());
    List<String> trustNotes = TrustNotes.of(trust, allowances, limits.of(0), counts);
    return new Mobility(
        vehicle,
        cls,
        limit,
        headingsPct,
        speedMs,
        energyJm,
        margin01,
        Optional.ofNullable(noGo01),
        field,
        unresolved,
        counts.slow(),
        notes(
            limits,
            soils != null,
            hazard.boulders().isPresent(),
            terrain,
            unresolved,
            trustNotes,
            counts));
  }

  /**
   * Returns the resolution for the limits on every soil that occurs, or that is used where the soil
   * is unknown.
   */
  private static Resolution resolution(
      SoilLimits limits,
      MobilityCounts counts,
      Terrain terrain,
      boolean posed,
      UnresolvedRule rule) {
    Resolution all = null;
    for (int i = 0; i < limits.count(); i++) {
      if (limits.single(i) && counts.hasSoil(i, limits)) {
        Resolution onSoil = new Resolution(limits.of(i), terrain, posed, rule);
        if (all == null) {
          all = onSoil;
        } else {
          all.add(onSoil);
        }
      }
    }
    return all == null ? new Resolution(limits.of(0), terrain, posed, rule) : all;
  }

  private static boolean detours(float[] detour) {
    for (float d : detour) {
      if (d > 1) {
        return true;
      }
    }
    return false;
  }

  private static List<String> notes(
      SoilLimits soils,
      boolean soilsGiven,
      boolean rocks,
      Terrain terrain,
      Unresolved unresolved,
      List<String> trustNotes,
      MobilityCounts counts) {
    MoveLimits limits = soils.of(0);
    List<String> notes = new ArrayList<>();
    GridSpec spec = terrain.gradEast().spec();
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    if (WheelLayout.resolves(limits.vehicle(), spec)) {
      notes.add(
          Digits.text(
              "Wheels set on the ground on 32 headings: cells of %s m resolve a track of %s m."
                  + " Obstacles smaller than about %s m are not in the elevation model.",
              cellM, limits.vehicle().wheels().narrowestTrackM(), 2 * cellM));
    } else {
      notes.add(
          Digits.text(
              "Closed forms: cells of %s m do not resolve the wheels; contact of belly and"
                  + " overhangs follows from convexity and breaks in slope. Obstacles smaller than"
                  + " about %s m are not in the elevation model.",
              cellM, 2 * cellM));
    }
    if (IsotropicLimits.stepExtrapolatedTooFar(terrain) && limits.needsStep()) {
      notes.add(stepsNotMeasured(limits, counts, cellM));
    }
    if (unresolved != null) {
      notes.add(unresolved.text());
    }
    notes.addAll(trustNotes);
    if (counts.tacked() > 0) {
      notes.add(
          counts.tacked()
              + " cells have a window of headings between two of the 32: reach and corridors make"
              + " way there in tacks from one window to that on the other side of the fall line.");
    }
    if (counts.narrow() > 0) {
      notes.add(
          counts.narrow()
              + " cells are open only on a window that no heading makes good, mostly one along the"
              + " fall line: shown as slow, not used by reach and corridors.");
    }
    sightNote(limits, notes);
    if (soilsGiven && !SoilMap.bearsOn(limits.vehicle())) {
      notes.add("Soils by place are not applied: the vehicle gives no mass or no wheels.");
    }
    MissingData.tell(soils, counts, notes);
    for (int i = 0; i < soils.count(); i++) {
      if (counts.onSoil(i) > 0 && soils.single(i)) {
        soilNotes(soils.of(i), soils.count() > 1, counts.shareOfSoil(i), rocks, notes);
      }
    }
    return notes;
  }

  private static String stepsNotMeasured(MoveLimits limits, MobilityCounts counts, double cellM) {
    return Digits.text(
            "Cells of %s m do not tell steps from slopes: steps only slow, whether estimated or"
                + " breaks as measured, and no ground is no-go for them.",
            cellM)
        + (Double.isInfinite(limits.stepM) || counts.stepOver() == 0
            ? ""
            : Digits.text(
                " On %d cells they exceed the vehicle's limit of %s m, with up to %s m: there may"
                    + " be walls as high as that.",
                counts.stepOver(), limits.stepM, counts.highestStepM()));
  }

  private static void sightNote(MoveLimits limits, List<String> notes) {
    double levelMs = limits.model.withinSightMs(0);
    double leastMs = DriveModel.leastWithinSightMs(limits.vehicle().drive());
    if (limits.stopped < 0) {
      notes.add(
          String.format(
              Locale.ROOT,
              "Stopping within sight leaves %.2g m/s on level ground, less than %.2g m/s, a tenth of"
                  + " the crawl speed: no heading is open anywhere.",
              levelMs,
              leastMs));
    } else if (levelMs < limits.crawlMs) {
      notes.add(
          String.format(
              Locale.ROOT,
              "Stopping within sight leaves %.2g m/s on level ground, below the crawl speed;"
                  + " headings that leave less than %.2g m/s are shut.",
              levelMs,
              leastMs));
    }
  }

  private static void soilNotes(
      MoveLimits limits, boolean several, double share, boolean rocks, List<String> notes) {
    Soil soil = limits.vehicle().soil();
    String where =
        several
            ? Digits.text(
                "On %s (%s %% of the cells): ",
                soil == null ? "ground without a soil" : soil.name(), 100 * share)
            : "";
    double rutM = limits.soft.sinkageM(0);
    if (rutM > 0 && rutM > limits.vehicle().wheels().radiusM() / 3) {
      notes.add(
          where
              + String.format(
                  Locale.ROOT,
                  "Wheels sink %.2g m on the level, more than a sixth of their diameter: beyond"
                      + " what the pressure-sinkage law is meant for.",
                  rutM));
    }
    if (rocks && limits.noRocks) {
      notes.add(
          where
              + String.format(
                  Locale.ROOT,
                  "Wheels sink %.2g m on the level, half of clearance or step or more: no-go for"
                      + " rocks wherever there are any.",
                  rutM));
    }
    if (limits.bearing != null) {
      notes.add(
          where
              + Digits.text(
                  "Pull by relations for single wheels, as none by the excess of the cone index was"
                      + " found: rating cone index %s where %s is needed, up to %.1f degrees"
                      + " of climb; how deep wheels sink is not told.",
                  limits.bearing.rating(),
                  limits.bearing.needed(),
                  Math.max(0, SlopeGeometry.deg(limits.tractionUp))));
    }
    if (limits.tractionUp < 0) {
      notes.add(where + "The soil does not carry the vehicle on level ground.");
    }
  }
}
