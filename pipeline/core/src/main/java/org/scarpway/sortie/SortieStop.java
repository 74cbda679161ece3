package org.scarpway.sortie;

import java.util.Set;

/**
 * A place where the crew may stop, once.
 *
 * @param name unique among the stops
 * @param value what it brings, 0 or more, in any unit
 * @param stayS time there without leaving and entering the cabin (s); it lies within one day
 * @param walks walks there, all on that day
 * @param must whether every plan has to contain it
 * @param after places (1 for the first stop of the list) that must be done before it
 * @param opensS earliest start of the stay (s after the start, by the clock), 0 for none
 * @param closesS latest end of the stay (s after the start, by the clock), infinite for none
 * @param camp whether a night may be spent there; asked with nights at camps only
 * @param ways what coming home after a failure takes from there
 */
public record SortieStop(
    String name,
    double value,
    double stayS,
    int walks,
    boolean must,
    Set<Integer> after,
    double opensS,
    double closesS,
    boolean camp,
    WaysHome ways) {
  /**
   * Copies the set.
   *
   * @throws IllegalArgumentException if value, stay or walks are negative
   */
  public SortieStop {
    after = Set.copyOf(after);
    if (!(value >= 0 && stayS >= 0 && walks >= 0)) {
      throw new IllegalArgumentException("stop " + name + " has a negative amount");
    }
  }

  /** A stop without conditions, where a night may be spent. */
  public static SortieStop free(String name, double value, double stayS, int walks) {
    return new SortieStop(
        name,
        value,
        stayS,
        walks,
        false,
        Set.of(),
        0,
        Double.POSITIVE_INFINITY,
        true,
        WaysHome.AT_HOME);
  }
}
