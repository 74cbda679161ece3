package org.scarpway.report;

import java.util.List;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * The data of the page that compares runs. It contains no time, so the same runs give the same page
 * byte for byte.
 *
 * @param name of the comparison
 * @param runs names of the runs; the others are held against the first
 * @param origins version of the program and digest of the job file, one for each run
 * @param sentences the answer in plain words
 * @param answers rows of part, figure, unit, the value of each run and its change against the first
 * @param settings rows of key and the value of each run, where they differ
 * @param changes ground that differs
 * @param heightM elevation of the first run (m), NaN without data
 * @param gradEast rise over run towards the east
 * @param gradNorth rise over run towards the north
 */
public record ComparisonData(
    String name,
    List<String> runs,
    List<String> origins,
    List<String> sentences,
    List<List<String>> answers,
    List<List<String>> settings,
    List<Change> changes,
    FloatGrid heightM,
    FloatGrid gradEast,
    FloatGrid gradNorth,
    LonLat lonLat) {
  /** Copies the lists. */
  public ComparisonData {
    runs = List.copyOf(runs);
    origins = List.copyOf(origins);
    sentences = List.copyOf(sentences);
    answers = List.copyOf(answers);
    settings = List.copyOf(settings);
    changes = List.copyOf(changes);
  }

  /**
   * A map of ground that differs.
   *
   * @param title of the map
   * @param reach true for ground in reach, false for classes of ground
   * @param codes {@link #BOTH}, {@link #GAINED} or {@link #LOST}, 0 for none
   * @param file name of the raster with all codes
   */
  public record Change(String title, boolean reach, ByteGrid codes, String file) {
    /** Reached by both runs; of classes, those of both runs are the same. */
    public static final int BOTH = 1;

    /** Reached by the second run only; or a better class there. */
    public static final int GAINED = 2;

    /** Reached by the first run only; or a worse class in the second. */
    public static final int LOST = 3;

    /** A verdict on the class in one run only. */
    public static final int OTHER = 4;
  }
}
