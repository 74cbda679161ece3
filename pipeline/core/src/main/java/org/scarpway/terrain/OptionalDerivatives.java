package org.scarpway.terrain;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.scarpway.grid.FloatGrid;

/**
 * The results that a job requests beyond {@link Terrain}.
 *
 * @param derivatives in the order of {@link Derivative}, may be empty
 * @param scaling roughness by scale, null if not requested
 * @param spread slope statistics over realisations, null if not requested
 */
public record OptionalDerivatives(
    Map<Derivative, FloatGrid> derivatives, Scaling scaling, SlopeSpread spread) {
  public static final OptionalDerivatives NONE = new OptionalDerivatives(Map.of(), null, null);

  public OptionalDerivatives {
    EnumMap<Derivative, FloatGrid> sorted = new EnumMap<>(Derivative.class);
    sorted.putAll(derivatives);
    derivatives = Collections.unmodifiableMap(sorted);
  }

  /** Returns a copy with the spread of slopes. */
  public OptionalDerivatives with(SlopeSpread slopes) {
    return new OptionalDerivatives(derivatives, scaling, slopes);
  }
}
