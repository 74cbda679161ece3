package org.scarpway.dem;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class HeightUnitTest {
  @Test
  void namesInUse() {
    assertEquals(1, HeightUnit.named("").metres());
    assertEquals(1, HeightUnit.named("Metre").metres());
    assertEquals(0.3048, HeightUnit.named("ft").metres());
    assertEquals(1200.0 / 3937, HeightUnit.named("US survey foot").metres());
    assertEquals(1200.0 / 3937, HeightUnit.named("us-ft").metres());
    assertEquals(1000, HeightUnit.named("km").metres());
    assertTrue(HeightUnit.named("m").known());
    assertFalse(HeightUnit.named("fathom").known());
    assertEquals(1, HeightUnit.named("fathom").metres());
  }
}
