package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Equal ingredients give equal keys, other ingredients other keys. */
class StageKeyTest {
  private static String of(Object value) {
    return StageKey.of("terrain", 1).add("a", value).build().hex();
  }

  @Test
  void theSameIngredientsInAnyOrderAreTheSameKey() {
    StageKey one = StageKey.of("terrain", 1).add("a", 1).add("b", List.of("x", "y")).build();
    StageKey two =
        StageKey.of("terrain", 1).add("b", new ArrayList<>(List.of("x", "y"))).add("a", 1).build();
    assertEquals(one.hex(), two.hex());
    assertEquals(one.ingredients(), two.ingredients());
    assertTrue(one.hex().matches("[0-9a-f]{64}"), one.hex());
  }

  @Test
  void everyIngredientChangesTheKey() {
    StageKey up = StageKey.of("terrain", 1).build();
    StageKey otherUp = StageKey.of("terrain", 2).build();
    List<StageKey> all =
        List.of(
            StageKey.of("hazard", 1).add(up).add("a", 1).build(),
            StageKey.of("hazarda", 1).add(up).add("a", 1).build(),
            StageKey.of("hazard", 2).add(up).add("a", 1).build(),
            StageKey.of("hazard", 1).add(otherUp).add("a", 1).build(),
            StageKey.of("hazard", 1).add("a", 1).build(),
            StageKey.of("hazard", 1).add(up).build(),
            StageKey.of("hazard", 1).add(up).add("a", 2).build(),
            StageKey.of("hazard", 1).add(up).add("A", 1).build(),
            StageKey.of("hazard", 1).add(up).add("a", 1).add("b", "").build());
    assertEquals(all.size(), all.stream().map(StageKey::hex).distinct().count());
  }

  @Test
  void valuesOfOtherKindsAreOtherKeys() {
    List<Object> values =
        Arrays.asList(
            1,
            "1",
            1.0,
            "1.0",
            true,
            "true",
            null,
            "null",
            "",
            List.of(),
            "[]",
            List.of("1"),
            List.of(1),
            List.of(""),
            List.of("a", "b"),
            List.of("b", "a"),
            List.of("a, b"),
            "[a, b]",
            List.of("ab", "c"),
            List.of("a", "bc"),
            List.of(List.of("a"), "b"),
            List.of(List.of("a", "b")),
            0.0,
            -0.0,
            Double.NaN,
            "NaN");
    Set<String> keys = new HashSet<>();
    values.forEach(v -> assertTrue(keys.add(of(v)), "another value has the key of " + v));
  }

  @Test
  void whatOneIngredientHoldsNeverPassesForAnother() {
    assertNotEquals(
        StageKey.of("t", 1).add("a", "x").add("b", "y").build().hex(),
        StageKey.of("t", 1).add("a", "x\0b\1y").build().hex());
    assertNotEquals(
        StageKey.of("t", 1).add("ab", "c").build().hex(),
        StageKey.of("t", 1).add("a", "bc").build().hex());
    // Names and values from few letters, separators among them, so that near misses are frequent.
    SplittableRandom random = new SplittableRandom(11);
    Set<List<String>> drawn = new HashSet<>();
    Set<String> keys = new HashSet<>();
    for (int i = 0; i < 4000; i++) {
      List<String> parts = new ArrayList<>();
      StageKey.Builder key = StageKey.of("t", 1);
      String[] names = {"a" + word(random), "b" + word(random)};
      for (int k = 0; k < 1 + random.nextInt(2); k++) {
        String value = word(random);
        parts.add(names[k]);
        parts.add(value);
        key.add(names[k], value);
      }
      assertEquals(drawn.add(parts), keys.add(key.build().hex()), parts::toString);
    }
  }

  private static String word(SplittableRandom random) {
    StringBuilder word = new StringBuilder();
    for (int n = random.nextInt(4); n > 0; n--) {
      word.append("ab,\0\1".charAt(random.nextInt(5)));
    }
    return word.toString();
  }

  @Test
  void anIngredientIsAddedOnce() {
    StageKey.Builder key = StageKey.of("terrain", 1).add("a", 1);
    assertThrows(IllegalStateException.class, () -> key.add("a", 1));
  }
}
