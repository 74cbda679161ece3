package org.scarpway.run.ground;

import java.util.function.Function;
import org.scarpway.config.Job;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.vehicle.DrivenTogether;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;

/**
 * Two vehicles of different kinds that drive together, either of which may have to bring everybody
 * home. Each drives on its own allowed ground, alone and with the other crew aboard. Energy is
 * counted in the joules of the leading one: those of the other are scaled by the limits of both, so
 * that a way within the limit of the one is within that of the other.
 *
 * @param leads the vehicle in whose joules energy is counted
 * @param follows the other one
 * @param scale joules of the one that leads to a joule of the other
 * @param first the one that the question names first
 * @param personKg mass of each person taken aboard (kg)
 */
public record Pair(Vehicle leads, Vehicle follows, double scale, Vehicle first, double personKg) {
  private static final double J_PER_KWH = 3.6e6;

  /** Returns the pair of a question; null if it asks no two kinds of vehicles. */
  public static Pair of(Job job, Job.ReachEntry r) {
    if (r.rescue().second().isEmpty()) {
      return null;
    }
    Vehicle first = JobVehicles.vehicle(job, r.vehicle());
    Vehicle second = JobVehicles.vehicle(job, r.rescue().second());
    double ofFirst = mostJ(first, r.budget().energyJ());
    double ofSecond = mostJ(second, r.budget().energyJ());
    // A vehicle without a limit follows: its joules count nothing.
    boolean swap = ofFirst == Double.POSITIVE_INFINITY && ofSecond < ofFirst;
    double scale = ofFirst == ofSecond ? 1 : swap ? 0 : ofFirst / ofSecond;
    double kg = r.rescue().personKg();
    return swap
        ? new Pair(second, first, scale, first, kg)
        : new Pair(first, second, scale, first, kg);
  }

  /** Returns the vehicle whose supplies limit a question's trips: of a pair the lesser of both. */
  public static Vehicle supplied(Job job, Job.ReachEntry r) {
    Pair pair = of(job, r);
    return pair == null ? JobVehicles.vehicle(job, r.vehicle()) : pair.together();
  }

  /** The most that the battery and the budget give; infinite without a limit (J). */
  private static double mostJ(Vehicle v, Double budgetJ) {
    double batteryJ =
        v.batteryKwh() == null || !v.hasEnergyModel()
            ? Double.POSITIVE_INFINITY
            : v.batteryKwh() * J_PER_KWH;
    return budgetJ == null ? batteryJ : Math.min(budgetJ, batteryJ);
  }

  /** A vehicle with the first one's name and the lesser supplies of both. */
  public Vehicle together() {
    int seats = Math.max(leads.crew().seats(), follows.crew().seats());
    Vehicle.Drive d = first.drive();
    return new Vehicle(
        first.name(),
        first.summary(),
        first.massKg(),
        first.body(),
        first.wheels(),
        first.limits(),
        first.slowFrom(),
        new Vehicle.Drive(
            d.speedMs(),
            d.crawlMs(),
            d.powerW(),
            d.efficiency(),
            d.regeneration(),
            Math.max(hotelW(leads), scale * hotelW(follows)),
            d.rolling(),
            d.turnRadiusM(),
            d.passes(),
            d.mobilityIndex(),
            d.tracked(),
            d.sight()),
        first.soil(),
        leads.hasEnergyModel() ? leads.batteryKwh() : null,
        new Vehicle.Crew(
            seats,
            // That each takes everybody is checked when the job is read.
            2 * seats,
            lesser(leads.crew().lifeSupportH(), follows.crew().lifeSupportH()),
            leads.crew().suited() || follows.crew().suited()));
  }

  private static double hotelW(Vehicle v) {
    Double w = v.drive().hotelW();
    return w == null ? 0 : w;
  }

  private static Double lesser(Double a, Double b) {
    return a == null ? b : b == null ? a : (Double) Math.min(a, b);
  }

  /** The vehicle that leads with the other crew aboard. */
  public Vehicle leadsLoaded() {
    return leads.withLoad(follows.crew().seats() * personKg);
  }

  /** The other vehicle with the crew of the one that leads aboard. */
  public Vehicle followsLoaded() {
    return follows.withLoad(leads.crew().seats() * personKg);
  }

  /** Returns the ground on which both drive, out and, loaded, home. */
  public TraversalInput ground(Function<Vehicle, TraversalInput> of) {
    TraversalInput ground = of.apply(first);
    TraversalCost a = of.apply(leads).field();
    TraversalCost b = of.apply(follows).field();
    TraversalCost homeA = a.withLoad(of.apply(leadsLoaded()).field());
    TraversalCost homeB = b.withLoad(of.apply(followsLoaded()).field());
    return ground
        .withVehicle(together())
        .withField(DrivenTogether.of(a, b, scale))
        .withLoaded(DrivenTogether.of(homeA, homeB, scale));
  }
}
