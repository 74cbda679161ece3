package org.scarpway.stage;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Values in a scratch file against plain arrays, also where one piece of the file ends. */
class ScratchValuesTest {
  /** Longer than a piece of a file, so that copies cross from one to the next. */
  private static final int FLOATS = (1 << 26) + 1000;

  private static final int BYTES = (1 << 28) + 1000;

  @Test
  void floatsAreThoseOfAnArray() {
    Floats file = Floats.of(FLOATS, new Memory().scratch());
    assertEquals(FLOATS, file.size());
    int first = FLOATS - 2000;
    float[] wanted = new float[2000];
    Random random = new Random(5);
    for (int i = 0; i < wanted.length; i++) {
      wanted[i] = random.nextFloat();
      if (i % 2 == 0) {
        file.set(first + i, wanted[i]);
      }
    }
    float[] got = new float[2010];
    file.read(first, got, 10, 2000);
    for (int i = 0; i < wanted.length; i++) {
      assertEquals(i % 2 == 0 ? wanted[i] : 0, got[10 + i]);
    }
    file.write(first, wanted, 0, 2000);
    for (int i = 0; i < wanted.length; i++) {
      assertEquals(wanted[i], file.get(first + i));
    }
    assertEquals(0, file.get(first - 1));
    assertTrue(file.sameAs(file));
    float[] array = {1, 2};
    assertTrue(Floats.of(array).sameAs(Floats.of(array)));
    assertFalse(Floats.of(array).sameAs(Floats.of(array.clone())));
  }

  @Test
  void floatsThatAreMostlyOneValueTakeTheOthers() {
    int size = 100_000;
    Floats file = Floats.of(size, Float.NaN, new Memory().scratch());
    float[] wanted = new float[size];
    Arrays.fill(wanted, Float.NaN);
    Random random = new Random(8);
    for (int i = 0; i < 500; i++) {
      int at = 40_000 + random.nextInt(30_000);
      wanted[at] = random.nextFloat();
      file.set(at, wanted[at]);
    }
    file.write(99_000, new float[] {4, 5, 6}, 1, 2);
    wanted[99_000] = 5;
    wanted[99_001] = 6;
    float[] got = new float[size];
    file.read(0, got, 0, size);
    assertArrayEquals(wanted, got);
    Floats heap = Floats.of(size, 3, null);
    assertEquals(3, heap.get(size - 1));
  }

  @Test
  void bytesAreThoseOfAnArray() {
    Bytes file = Bytes.of(BYTES, new Memory().scratch());
    int first = BYTES - 2000;
    byte[] wanted = new byte[2000];
    new Random(6).nextBytes(wanted);
    file.write(first, wanted, 0, 2000);
    file.set(first, (byte) 7);
    wanted[0] = 7;
    byte[] got = new byte[2000];
    file.read(first, got, 0, 2000);
    assertArrayEquals(wanted, got);
    assertEquals(wanted[1500], file.get(first + 1500));
  }

  @Test
  void moreKeepsWhatIsThere() {
    for (ScratchFile file : new ScratchFile[] {null, new Memory().scratch()}) {
      Ints ints = Ints.few(file);
      Floats floats = Floats.few(file);
      int before = ints.size();
      assertEquals(before, floats.size());
      for (int i = 0; i < 1000; i++) {
        ints.set(before - 1 - i, i + 3);
        floats.set(before - 1 - i, i + 4);
      }
      ints = ints.more();
      floats = floats.more();
      assertTrue(ints.size() > before);
      assertEquals(ints.size(), floats.size());
      ints.set(before, 9);
      for (int i = 0; i < 1000; i++) {
        assertEquals(i + 3, ints.get(before - 1 - i));
        assertEquals(i + 4, floats.get(before - 1 - i));
      }
      assertEquals(9, ints.get(before));
      assertEquals(0, floats.get(before));
      assertEquals(file != null, ints.inFile());
    }
  }

  @Test
  void fillReachesEveryValue() {
    Floats file = Floats.of(200_001, new Memory().scratch());
    file.fill(Float.NaN);
    Ints ints = Ints.of(200_001, new Memory().scratch());
    ints.fill(-1);
    for (int i = 0; i < file.size(); i++) {
      assertTrue(Float.isNaN(file.get(i)));
      assertEquals(-1, ints.get(i));
    }
  }
}
