package org.scarpway.run.unit;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.scarpway.config.LightSettings;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.GridSpec;
import org.scarpway.light.Horizons;
import org.scarpway.light.Sky;
import org.scarpway.light.SkyTrack;
import org.scarpway.light.TrackRows;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;

/** The stage light/: light and shadow over the job's window of time. */
final class LightTask implements StageTask<LightPlaces> {
  static final String ID = "light";
  static final String MEAN = "mean_share";
  static final String MEAN_CAUTIOUS = "mean_share_cautious";
  static final String DARK = "longest_dark_h";
  static final String DARK_CAUTIOUS = "longest_dark_cautious_h";
  private static final String DARK_KIND = "longest_dark_kind";
  static final String EDGE = "edge_share";
  private static final int VERSION = 3;
  private static final int WHOLE = 1;
  private static final int AT_LEAST = 2;
  private static final int LEFT_AT_LEAST = 3;

  private final OpenJob job;
  private final LightSettings settings;
  private final LightGround ground;
  private final GridSpec spec;
  private final StageKey key;

  LightTask(OpenJob job, StageKey terrain, LightGround ground) {
    this.job = job;
    this.settings = job.job().light();
    this.ground = ground;
    this.spec = ground.productSpec();
    StageKey.Builder k = ground.horizonKey(StageKey.of(ID, VERSION).add(terrain));
    k.add("panel", settings.panelM())
        .add("dark", settings.darkShare())
        .add("error", settings.horizonErrorDeg())
        .add("at", settings.at())
        .add("maps", settings.horizonMaps())
        .add("places", LitPlace.spots(job));
    this.key = k.build();
  }

  @Override
  public String id() {
    return ID;
  }

  @Override
  public boolean isQuestion() {
    return true;
  }

  @Override
  public StageKey key() {
    return key;
  }

  /** The cells are counted for every azimuth. */
  @Override
  public long cells() {
    return (long) job.spec().cells() * settings.azimuths();
  }

  @Override
  public void make(Path dir) {
    Sky sky = ground.sky();
    List<Instant> times =
        SkyTrack.times(settings.from(), settings.to(), settings.step(), settings.at());
    SkyTrack track = SkyTrack.sun(sky, times, spec, ground.map(), ground.radiusM());
    Horizons horizons = ground.ofPanels();
    List<Double> givenH = TrackRows.Question.hours(times, settings.at());
    TrackRows.Question plain = new TrackRows.Question(0, settings.darkShare(), List.of());
    TrackRows.Question cautious =
        new TrackRows.Question(settings.horizonErrorDeg(), settings.darkShare(), givenH);
    job.progress().begin(ID, spec.cells());
    try (ProductFiles<LightRows> files = job.stages().files(dir, spec, products())) {
      for (int row = 0; row < spec.rows(); row += LightRows.STRIP_ROWS) {
        int firstRow = row;
        int rows = Math.min(LightRows.STRIP_ROWS, spec.rows() - row);
        LightRows out =
            new LightRows(spec.part(row, 0, rows, spec.cols()), amountNames(), codeNames());
        out.inBands(
            firstRow,
            job.workers(),
            (skip, first, n) -> {
              band(
                  out,
                  skip,
                  first * spec.cols(),
                  horizons,
                  TrackRows.of(horizons, track, plain, first, n),
                  TrackRows.of(horizons, track, cautious, first, n));
              job.progress().advance((long) n * spec.cols());
            });
        files.append(out, 0, rows);
      }
      files.finish();
    }
    job.progress().end();
    List<LitPlace> places = LitPlace.all(job, ground, sky, times, settings.panelM(), true);
    LightTables.write(dir, job, places, sky, times);
    StoredResult.write(dir, LightPlaces.of(places));
  }

  private void band(
      LightRows out,
      int skip,
      int firstCell,
      Horizons horizons,
      TrackRows plain,
      TrackRows cautious) {
    for (int i = 0; i < plain.part().cells(); i++) {
      int at = skip + i;
      int cell = firstCell + i;
      if (!ground.known(cell)) {
        continue;
      }
      out.set(MEAN, at, plain.meanShare(i));
      out.set(MEAN_CAUTIOUS, at, cautious.meanShare(i));
      out.set(DARK, at, plain.longestH(i));
      out.set(DARK_CAUTIOUS, at, cautious.longestH(i));
      boolean cut =
          plain.longestIsAtLeast(i) || cautious.longestIsAtLeast(i) || horizons.edgeShare(cell) > 0;
      out.code(DARK_KIND, at, cut ? AT_LEAST : WHOLE);
      out.set(EDGE, at, horizons.edgeShare(cell));
      for (int g = 0; g < settings.at().size(); g++) {
        out.set(next(g), at, cautious.toAboveH(g, i));
        out.set(left(g), at, cautious.leftH(g, i));
        boolean nextCut = cautious.isAtLeast(true, g, i);
        boolean leftCut = cautious.isAtLeast(false, g, i);
        out.code(kind(g), at, nextCut ? AT_LEAST : leftCut ? LEFT_AT_LEAST : WHOLE);
      }
      for (int azimuth : settings.horizonMaps()) {
        out.set(horizonMap(azimuth), at, horizons.elevationDeg(nearest(azimuth), cell));
      }
    }
  }

  private int nearest(int azimuthDeg) {
    return (int) Math.rint(azimuthDeg * settings.azimuths() / 360.0) % settings.azimuths();
  }

  static String next(int given) {
    return "next_light_h_" + (given + 1);
  }

  static String left(int given) {
    return "light_left_h_" + (given + 1);
  }

  private static String kind(int given) {
    return "at_kind_" + (given + 1);
  }

  private static String horizonMap(int azimuthDeg) {
    return "horizon_" + azimuthDeg + "_deg";
  }

  private List<String> amountNames() {
    List<String> names = new ArrayList<>(List.of(MEAN, MEAN_CAUTIOUS, DARK, DARK_CAUTIOUS, EDGE));
    for (int g = 0; g < settings.at().size(); g++) {
      names.add(next(g));
      names.add(left(g));
    }
    settings.horizonMaps().stream().distinct().forEach(a -> names.add(horizonMap(a)));
    return names;
  }

  private List<String> codeNames() {
    List<String> names = new ArrayList<>(List.of(DARK_KIND));
    for (int g = 0; g < settings.at().size(); g++) {
      names.add(kind(g));
    }
    return names;
  }

  private List<RasterProduct<LightRows, ?>> products() {
    String window = " from " + settings.from() + " to " + settings.to();
    String raised = ", horizons raised by " + settings.horizonErrorDeg() + " deg";
    String dark =
        "longest time with at most " + settings.darkShare() + " of the sun's disk" + window;
    List<RasterProduct<LightRows, ?>> all = new ArrayList<>();
    add(all, MEAN, "mean share of the sun's disk above the horizon" + window, "1");
    add(all, MEAN_CAUTIOUS, "mean share of the sun's disk" + window + raised, "1");
    add(all, DARK, dark, "h");
    add(all, DARK_CAUTIOUS, dark + raised, "h");
    add(
        all,
        EDGE,
        "share of the azimuths whose horizon lies at the edge of the data or behind a void",
        "1");
    code(
        all,
        DARK_KIND,
        "whether the longest times in the dark are known",
        "both lie within the window",
        "at least so long: the window cuts a dark time, or a horizon is not surely known",
        null);
    for (int g = 0; g < settings.at().size(); g++) {
      String from = " from " + settings.at().get(g);
      add(all, next(g), "time to the next light" + from + ", 0 in the light" + raised, "h");
      add(all, left(g), "light that is left" + from + ", 0 in the dark" + raised, "h");
      code(
          all,
          kind(g),
          "whether the times of light" + from + " are known",
          "both lie within the window",
          "next light at least so far away: none in the window",
          "light at least so long: to the end of the window");
    }
    for (int azimuth : settings.horizonMaps().stream().distinct().toList()) {
      double is = 360.0 * nearest(azimuth) / settings.azimuths();
      add(
          all,
          horizonMap(azimuth),
          "elevation of the horizon at grid azimuth " + is + " deg",
          "deg");
    }
    return all;
  }

  private static void add(
      List<RasterProduct<LightRows, ?>> all, String name, String what, String unit) {
    all.add(RasterProduct.floats(name, BandInfo.of(what, unit), rows -> rows.amount(name)));
  }

  private static void code(
      List<RasterProduct<LightRows, ?>> all,
      String name,
      String what,
      String one,
      String two,
      String three) {
    TreeMap<String, String> meanings = new TreeMap<>();
    meanings.put("CODE_1", one);
    meanings.put("CODE_2", two);
    if (three != null) {
      meanings.put("CODE_3", three);
    }
    all.add(RasterProduct.codes(name, BandInfo.codes(what, meanings), rows -> rows.code(name)));
  }

  @Override
  public LightPlaces load(Path dir) {
    return StoredResult.read(dir, LightPlaces.class);
  }
}
