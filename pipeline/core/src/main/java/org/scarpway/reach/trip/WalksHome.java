package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.function.IntFunction;
import org.scarpway.reach.front.ConnectedGround;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fronts;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the walk home from every cell: one way whose time, metabolic energy, length and time at
 * the peak rate are all within the walker's limits. It is the quickest way where that is within the
 * limits, else the least-energy or the shortest one, or one of these at the sustainable rate. Where
 * none of them is, no walk is given, although a way between them might exist.
 */
final class WalksHome {
  private final WalkHome rules;
  private final Floats timeS;
  private final Floats energyJ;
  private final Floats distanceM;
  private final boolean counted;
  private final List<CostField> found = new ArrayList<>();

  /**
   * Number of labels in {@code found} at the walker's own speeds; those after them are at the
   * sustainable rate.
   */
  private int atOwnSpeeds;

  /** Per cell, the index in {@code found} of the labels that its walk follows. */
  private final Bytes by;

  /** Per cell without a walk, the code of what the walks that were tried exceed. */
  private final Bytes beyond;

  private WalksHome(WalkHome rules, boolean counted) {
    this.rules = rules;
    this.counted = counted;
    int cells = rules.field().spec().cells();
    ScratchFile file = rules.field().scratch((3L * Float.BYTES + 2) * cells);
    timeS = Floats.of(cells, Float.NaN, file);
    energyJ = Floats.of(cells, Float.NaN, file);
    distanceM = Floats.of(cells, Float.NaN, file);
    by = Bytes.of(cells, file);
    beyond = Bytes.of(cells, file);
  }

  /**
   * @param refuges cells of the places of safety, the base included
   * @param heightM elevation of every cell (m)
   */
  static WalksHome of(
      WalkHome rules, Floats heightM, int[] refuges, Workers workers, Progress progress) {
    WalkHome.Limits limits = rules.limits();
    boolean counted = Costs.hasEnergy(rules.field());
    WalksHome walks = new WalksHome(rules, counted);
    boolean all = walks.takeAll(rules.field(), limits.peak(), heightM, refuges, workers, progress);
    walks.atOwnSpeeds = walks.found.size();
    if (!all && limits.sustained() != null) {
      walks.takeAll(limits.sustained(), null, heightM, refuges, workers, progress);
    }
    return walks;
  }

  /**
   * @param peak field that counts time at the peak rate, null for none
   * @return true if all of the quickest ways are within every limit
   */
  private boolean takeAll(
      TraversalCost field,
      TraversalCost peak,
      Floats heightM,
      int[] refuges,
      Workers workers,
      Progress progress) {
    WalkHome.Limits limits = rules.limits();
    double limitS = rules.limitS();
    boolean all = take(field, peak, Quantity.TIME_S, limitS, heightM, refuges, workers, progress);
    if (!all && limits.energyJ() < Double.POSITIVE_INFINITY) {
      double j = limits.energyJ();
      take(field, peak, Quantity.ENERGY_J, j, heightM, refuges, workers, progress);
    }
    if (!all && limits.distanceM() < Double.POSITIVE_INFINITY) {
      double m = limits.distanceM();
      take(field, peak, Quantity.DISTANCE_M, m, heightM, refuges, workers, progress);
    }
    return all;
  }

  /**
   * Adopts the ways that minimise a quantity in cells where they are within every limit and quicker
   * than the walk found before.
   *
   * @return true if all of them are within every limit
   */
  private boolean take(
      TraversalCost field,
      TraversalCost ofPeak,
      Quantity quantity,
      double budget,
      Floats heightM,
      int[] refuges,
      Workers workers,
      Progress progress) {
    WalkHome.Limits limits = rules.limits();
    Fronts.Spread front = Fronts.begin(field, quantity, Direction.HOME, budget, progress, refuges);
    workers.all(Collections.nCopies(workers.threads(), front::work));
    CostField labels = front.labels();
    byte number = (byte) found.size();
    found.add(labels);
    PathSums ways = KeptSums.along(quantity, labels, heightM, counted);
    PathSums peak =
        ofPeak == null ? null : PathSums.along(labels, ofPeak, Direction.HOME, heightM, true, null);
    boolean quickest = quantity == Quantity.TIME_S;
    boolean all = true;
    for (int cell = 0; cell < timeS.size(); cell++) {
      if (!labels.reached(cell)) {
        if (atOwnSpeeds == 0) {
          // The least amount is above its limit, whatever the walk.
          beyond.set(cell, end(quantity).code());
        }
      } else {
        double s = quickest ? labels.value(cell) : ways.timeS(cell);
        double j = counted ? ways.energyJ(cell) : 0;
        double m = ways.distanceM(cell);
        if (s <= rules.limitS()
            && j <= limits.energyJ()
            && m <= limits.distanceM()
            && (peak == null || peak.energyJ(cell) <= limits.peakS())) {
          if (!(timeS.get(cell) <= s)) {
            timeS.set(cell, (float) s);
            by.set(cell, number);
            distanceM.set(cell, (float) m);
            if (counted) {
              energyJ.set(cell, (float) j);
            }
          }
        } else {
          all = false;
          if (beyond.get(cell) == 0) {
            beyond.set(cell, exceeded(s, j, m).code());
          }
        }
      }
    }
    return all;
  }

  private static ReachEnd end(Quantity least) {
    return switch (least) {
      case TIME_S -> ReachEnd.WALK_TIME;
      case ENERGY_J -> ReachEnd.WALK_EFFORT;
      case DISTANCE_M -> ReachEnd.WALK_LENGTH;
    };
  }

  /** The limit of which a walk that is not within all of them uses the largest share. */
  private ReachEnd exceeded(double s, double j, double m) {
    double ofTime = s / rules.limitS();
    double ofLength = m / rules.limits().distanceM();
    double ofEnergy = j / rules.limits().energyJ();
    if (ofLength > 1 && ofLength >= ofTime && ofLength >= ofEnergy) {
      return ReachEnd.WALK_LENGTH;
    }
    return ofTime > 1 && ofTime >= ofEnergy ? ReachEnd.WALK_TIME : ReachEnd.WALK_EFFORT;
  }

  /** What leaves a cell without a walk home; null where there is one. */
  IntFunction<ReachEnd> missing() {
    BitSet onFoot = joined();
    return cell -> {
      if (!Float.isNaN(timeS.get(cell))) {
        return null;
      }
      return onFoot.get(cell) ? ReachEnd.of(beyond.get(cell)) : ReachEnd.NO_WAY_ON_FOOT;
    };
  }

  /** Cells that ground on foot joins to a refuge, whatever the walker's limits on a walk. */
  BitSet joined() {
    return ConnectedGround.of(found.get(0));
  }

  /** Time of the walk (s), NaN where there is none. */
  Floats timeS() {
    return timeS;
  }

  /** The labels and steps that the walk from a cell follows. */
  CostField labels(int cell) {
    return found.get(by.get(cell));
  }

  /** True if the walk from a cell is at the sustainable rate. */
  boolean sustained(int cell) {
    return by.get(cell) >= atOwnSpeeds;
  }

  /** Metabolic energy of the walk (J), NaN where there is no walk or its energy is unknown. */
  Floats energyJ() {
    return energyJ;
  }

  /** Length of the walk along the ground (m), NaN where there is none. */
  Floats distanceM() {
    return distanceM;
  }

  /** Summary figures of the walks from all surely reached cells. */
  List<ReachFigure> figures(Bytes state) {
    List<ReachFigure> all = new ArrayList<>();
    all.add(new ReachFigure(ReachFigure.FARTHEST_WALK, longest(distanceM, state) / 1000, "km"));
    all.add(new ReachFigure(ReachFigure.LONGEST_WALK, longest(timeS, state) / 3600, "h"));
    if (counted) {
      all.add(new ReachFigure("most energy of a walk home", longest(energyJ, state) / 1e6, "MJ"));
    }
    return all;
  }

  /** Remarks that must accompany the walks from surely reached cells. */
  List<String> notes(Bytes state) {
    double farM = longest(distanceM, state);
    List<String> notes = new ArrayList<>(rules.notes());
    if (farM > rules.limits().toldM()) {
      notes.add(
          String.format(
              Locale.ROOT,
              "walks home of up to %.1f km: the longest that a crew in suits ever planned for was 7.6"
                  + " km, the longest tested 10 km, on a level treadmill; nobody has walked so far"
                  + " home",
              farM / 1000));
    }
    return notes;
  }

  private static double longest(Floats values, Bytes state) {
    double most = 0;
    for (int cell = 0; cell < values.size(); cell++) {
      if (state.get(cell) == ReachState.SURELY && values.get(cell) > most) {
        most = values.get(cell);
      }
    }
    return most;
  }
}
