package org.scarpway.run;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class SettingsChangedTest {
  @Test
  void everySettingThatDiffersIsNamedOnce() {
    assertEquals(
        List.of(
            "reach.day.bands: [1h] becomes [2h]",
            "reach.day.stay: 5min is gone",
            "walker: w is new"),
        SettingsChanged.between(
            new TreeMap<>(
                Map.of("body", "moon", "reach.day.bands", "[1h]", "reach.day.stay", "5min")),
            new TreeMap<>(Map.of("body", "moon", "reach.day.bands", "[2h]", "walker", "w"))));
  }
}
