package org.scarpway.terrain;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.scarpway.grid.FloatGrid;

/**
 * What a job asked to know of the ground beyond {@link Terrain}.
 *
 * @param derivatives in the order of {@link Derivative}, may be empty
 * @param scaling null where not asked for
 * @param spread null where not asked for
 */
public record OptionalDerivatives(
    Map<Derivative, FloatGrid> derivatives, Scaling scaling, SlopeSpread spread) {
  public static final OptionalDerivatives NONE = new OptionalDerivatives(Map.of(), null, null);

  public OptionalDerivatives {
    EnumMap<Derivative, FloatGrid> sorted = new EnumMap<>(Derivative.class);
    sorted.putAll(derivatives);
    derivatives = Collections.unmodifiableMap(sorted);
  }

  /** The same with the spread of slopes. */
  public OptionalDerivatives with(SlopeSpread slopes) {
    return new OptionalDerivatives(derivatives, scaling, slopes);
  }
}
