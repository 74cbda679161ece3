package org.scarpway.reach.question;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.stage.Digits;

/**
 * Why a place is not surely reached, and what would reach it.
 *
 * @param shortfalls every limit that no known trip keeps, each with the least that is needed; if
 *     each alone is kept by some trip, those that the trip exceeds which exceeds the limits least;
 *     empty if no trip is known at all
 * @param nearest the surely reached ground nearest to the place; null if there is none
 * @param crossing the least closed ground between reached ground and the place; null where closed
 *     ground does not part them
 * @param enough supplies by which a trip was found that meets every limit, all of them together;
 *     empty if none is known
 * @param stayS a shorter stay by which such a trip was found (s), NaN if none is known
 * @param refugeHelps true if a refuge at the place would reach it, by the rule walk-back
 * @param rescue how long a rescue from the place takes, in words; empty by other rules than
 *     base-rescue, or if none is possible
 */
public record WhyNot(
    List<Shortfall> shortfalls,
    Nearest nearest,
    Crossing crossing,
    List<Raise> enough,
    double stayS,
    boolean refugeHelps,
    String rescue) {

  /** Copies the lists. */
  public WhyNot {
    shortfalls = List.copyOf(shortfalls);
    enough = List.copyOf(enough);
  }

  /** What a trip uses up. */
  public enum Supply {
    /** Time of the trip (s). */
    TIME("time", "h", 3600),
    /** Energy from the battery (J). */
    ENERGY("energy", "kWh", 3.6e6),
    /** Length driven (m). */
    DISTANCE("distance", "km", 1000),
    /** Life support, or the endurance of suits that are ridden in (s). */
    LIFE_SUPPORT("life support", "h", 3600),
    /** Time of a walk home (s). */
    WALK("walk home", "h", 3600),
    /** Length of a walk home (m). */
    WALK_LENGTH("length of the walk home", "km", 1000),
    /** Metabolic energy of a walk home (J). */
    WALK_ENERGY("metabolic energy of the walk home", "MJ", 1e6),
    /** Life support of a vehicle that comes from the base (s). */
    RESCUER_LIFE("life support of the rescuer", "h", 3600),
    /** Energy from the battery of a vehicle that comes from the base (J). */
    RESCUER_ENERGY("energy of the rescuer", "kWh", 3.6e6),
    /** Length driven by a vehicle that comes from the base (m). */
    RESCUER_DISTANCE("distance of the rescuer", "km", 1000);

    private final String label;
    private final String unit;
    private final double perUnit;

    Supply(String label, String unit, double perUnit) {
      this.label = label;
      this.unit = unit;
      this.perUnit = perUnit;
    }

    /** Name in messages. */
    public String label() {
      return label;
    }

    /** SI amount of one unit shown to users. */
    public double perUnit() {
      return perUnit;
    }

    /** The amount in the unit shown to users, which follows the number. */
    public String text(double amount) {
      return Digits.of(amount / perUnit) + " " + unit;
    }
  }

  /**
   * A limit that the trip exceeds.
   *
   * @param of what is limited
   * @param needed amount that the trip needs (SI)
   * @param planned amount that may be planned, the limit less its reserve (SI)
   * @param by the way by which so much is needed, in words
   */
  public record Shortfall(Supply of, double needed, double planned, String by) {
    /** The amount that is missing (SI). */
    public double missing() {
      return needed - planned;
    }

    /** What is needed, what may be planned and what is missing, in words. */
    public String text() {
      return of.label()
          + ": "
          + of.text(needed)
          + " needed"
          + (by.isEmpty() ? "" : " " + by)
          + ", "
          + of.text(planned)
          + " may be planned, "
          + of.text(missing())
          + " short";
    }

    /** Returns this shortfall with a multiple of what is needed. */
    public Shortfall times(double factor) {
      return new Shortfall(of, factor * needed, planned, by);
    }
  }

  /**
   * Surely reached ground.
   *
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   * @param distanceM straight distance from the place (m)
   * @param azimuthDeg direction from the place, clockwise from grid north (deg)
   */
  public record Nearest(double xM, double yM, double distanceM, double azimuthDeg) {}

  /**
   * Closed ground between reached ground and a place.
   *
   * @param xM east coordinate of its first closed cell, seen from reached ground (m)
   * @param yM north coordinate of that cell (m)
   * @param lengthM length of closed ground on the way that crosses least of it (m)
   * @param limits names of the limits that bind in its closed cells, that of most cells first;
   *     empty if they are not known
   * @param cells indices of the closed cells on that way, from reached ground on
   */
  public record Crossing(
      double xM, double yM, double lengthM, List<String> limits, List<Integer> cells) {
    /** Copies the lists. */
    public Crossing {
      limits = List.copyOf(limits);
      cells = List.copyOf(cells);
    }
  }

  /**
   * A supply raised to an amount that suffices.
   *
   * @param supply kind of the supply
   * @param of name of the supply that would have to be raised, such as time budget
   * @param whole amount with its reserve (SI), rounded up to three digits of the unit shown
   * @param now the present amount with its reserve (SI)
   * @param by why it is more than the least that is needed, in words; empty if it is not
   */
  public record Raise(Supply supply, String of, double whole, double now, String by) {}

  /** The amount by which a supply falls short (SI), NaN if it does not. */
  public double missing(Supply of) {
    return shortfalls.stream()
        .filter(s -> s.of() == of)
        .mapToDouble(Shortfall::missing)
        .findFirst()
        .orElse(Double.NaN);
  }

  /**
   * One sentence without a full stop: what ends the place by how much, where reached ground is, and
   * what would reach the place.
   *
   * @param end the limit or rule that ends the reach, in words
   */
  public String sentence(String end) {
    List<String> parts = new ArrayList<>(List.of(shortText(end)));
    parts.add(rescue);
    parts.add(nearestText());
    parts.add(crossingText());
    parts.add(changeText());
    parts.removeIf(String::isEmpty);
    return String.join("; ", parts);
  }

  /** The limit or rule that ends the place, and every amount that is missing. */
  public String shortText(String end) {
    if (shortfalls.isEmpty()) {
      return end;
    }
    List<String> parts = new ArrayList<>();
    for (Shortfall s : shortfalls) {
      parts.add(s.of().text(s.missing()) + " of " + s.of().label());
    }
    return end + ": " + and(parts) + " short";
  }

  /** Each limit that is exceeded with what is needed and what may be planned, one line each. */
  public List<String> amounts() {
    return shortfalls.stream().map(Shortfall::text).toList();
  }

  /** Where surely reached ground is, in words; empty if there is none. */
  public String nearestText() {
    if (nearest == null) {
      return "";
    }
    return nearest.distanceM() == 0
        ? "the ground itself is reached with the stay of the question"
        : Digits.text(
            "nearest reached ground %s m away at %.0f deg from grid north",
            (double) Math.round(nearest.distanceM()), nearest.azimuthDeg());
  }

  /** The closed ground between reached ground and the place, in words; empty if there is none. */
  public String crossingText() {
    return crossing == null
        ? ""
        : Digits.text(
                "at least %s m of closed ground to cross, from E %.0f N %.0f m on",
                crossing.lengthM(), crossing.xM(), crossing.yM())
            + (crossing.limits().isEmpty() ? "" : " (" + and(crossing.limits()) + ")");
  }

  /** What would reach the place, in words; empty if nothing is known. */
  public String changeText() {
    String changes = changes();
    return changes.isEmpty() ? "" : "would be reached with " + changes;
  }

  /** The changes of which each would reach the place, in words; empty if none is known. */
  public String changes() {
    List<String> ways = new ArrayList<>();
    if (!enough.isEmpty()) {
      ways.add(
          and(
              enough.stream()
                  .map(
                      r ->
                          r.of()
                              + " of "
                              + r.supply().text(r.whole())
                              + " instead of "
                              + r.supply().text(r.now())
                              + (r.by().isEmpty() ? "" : " (" + r.by() + ")"))
                  .toList()));
    }
    if (stayS > 0) {
      ways.add(Digits.text("a stay of %s min", stayS / 60));
    }
    if (refugeHelps) {
      ways.add("a refuge at the place");
    }
    return String.join(", or ", ways);
  }

  private static String and(List<String> parts) {
    int last = parts.size() - 1;
    String before = String.join(", ", parts.subList(0, last));
    return before.isEmpty() ? parts.get(last) : before + " and " + parts.get(last);
  }
}
