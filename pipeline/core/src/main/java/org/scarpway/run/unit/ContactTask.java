package org.scarpway.run.unit;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.config.ContactSettings;
import org.scarpway.config.LightSettings;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.GridSpec;
import org.scarpway.light.Horizons;
import org.scarpway.light.RadioPath;
import org.scarpway.light.Sight;
import org.scarpway.light.Sky;
import org.scarpway.light.SkyTrack;
import org.scarpway.light.TrackRows;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.product.PlaceTable;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;

/** The stage contact/: sight of the Earth over the window of light, and sight of masts. */
final class ContactTask implements StageTask<LightPlaces> {
  static final String ID = "contact";
  static final String EARTH = "earth_share";
  static final String SILENCE = "longest_silence_h";
  static final String LINK = "link";
  static final int DIRECT = 1;
  static final int RELAYED = 2;
  static final int NONE = 3;
  private static final String SILENCE_KIND = "longest_silence_kind";
  private static final String EDGE = "edge_share";
  private static final int VERSION = 3;

  private final OpenJob job;
  private final LightSettings light;
  private final ContactSettings settings;
  private final LightGround ground;
  private final GridSpec spec;
  private final StageKey key;

  ContactTask(OpenJob job, StageKey terrain, LightGround ground) {
    this.job = job;
    this.light = job.job().light();
    this.settings = job.job().contact();
    this.ground = ground;
    this.spec = ground.productSpec();
    StageKey.Builder k = ground.horizonKey(StageKey.of(ID, VERSION).add(terrain));
    k.add("margin", settings.earthMarginDeg())
        .add("antenna", settings.antennaM())
        .add("masts", masts().toString())
        .add("clear", settings.frequencyMhz() + " " + settings.clearShare())
        .add("radio", settings.bending())
        .add("places", LitPlace.spots(job));
    this.key = k.build();
  }

  /** A mast on the ground, by the name of its place. */
  private record Standing(String name, Sight.Mast mast, boolean relay) {}

  private List<Standing> masts() {
    List<Standing> all = new ArrayList<>();
    for (ContactSettings.Mast m : settings.masts()) {
      Places.Spot at = job.places().known(m.at(), m.where());
      if (at != null) {
        int row = job.spec().rowOf(at.yM());
        int col = job.spec().colOf(at.xM());
        all.add(new Standing(m.at(), new Sight.Mast(row, col, m.heightM()), m.relay()));
      }
    }
    return all;
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
    return (long) job.spec().cells() * light.azimuths();
  }

  private Sight.Clear clear() {
    return settings.frequencyMhz() == null
        ? null
        : new Sight.Clear(settings.frequencyMhz(), settings.clearShare());
  }

  private boolean earth() {
    return settings.earthMarginDeg() != null;
  }

  @Override
  public void make(Path dir) {
    List<Instant> times = SkyTrack.times(light.from(), light.to(), light.step(), List.of());
    Sky sky = ground.sky();
    Horizons horizons = earth() ? ground.ofAntennas() : null;
    SkyTrack track =
        earth() ? SkyTrack.earth(sky, times, spec, ground.map(), ground.radiusM()) : null;
    TrackRows.Question question =
        new TrackRows.Question(earth() ? settings.earthMarginDeg() : 0, Double.NaN, List.of());
    Sight sight = new Sight(ground.ground(), null, ground.radiusM(settings.bending()));
    List<Standing> masts = masts();
    List<Boolean> joined = joined(sight, masts);
    job.progress().begin(ID, spec.cells());
    try (ProductFiles<LightRows> files = job.stages().files(dir, spec, products(masts))) {
      for (int row = 0; row < spec.rows(); row += LightRows.STRIP_ROWS) {
        int rows = Math.min(LightRows.STRIP_ROWS, spec.rows() - row);
        LightRows out =
            new LightRows(
                spec.part(row, 0, rows, spec.cols()), amountNames(masts), codeNames(masts));
        out.inBands(
            row,
            job.workers(),
            (skip, first, n) -> {
              if (earth()) {
                earth(
                    out, skip, first, horizons, TrackRows.of(horizons, track, question, first, n));
              }
              masts(out, skip, first, n, sight, masts, joined);
              job.progress().advance((long) n * spec.cols());
            });
        files.append(out, 0, rows);
      }
      files.finish();
    }
    job.progress().end();
    List<LitPlace> places = List.of();
    if (earth()) {
      places = LitPlace.all(job, ground, sky, times, settings.antennaM(), false);
      LightTables.writeEarth(dir, job, places);
    }
    if (!masts.isEmpty()) {
      writeLinks(dir, sight, masts, joined);
    }
    StoredResult.write(dir, LightPlaces.of(places));
  }

  private void earth(LightRows out, int skip, int firstRow, Horizons horizons, TrackRows rows) {
    for (int i = 0; i < rows.part().cells(); i++) {
      int cell = firstRow * spec.cols() + i;
      if (ground.known(cell)) {
        out.set(EARTH, skip + i, rows.aboveShare(i));
        out.set(SILENCE, skip + i, rows.longestH(i));
        out.code(
            SILENCE_KIND,
            skip + i,
            rows.longestIsAtLeast(i) || horizons.edgeShare(cell) > 0 ? 2 : 1);
        out.set(EDGE, skip + i, horizons.edgeShare(cell));
      }
    }
  }

  private void masts(
      LightRows out,
      int skip,
      int firstRow,
      int rows,
      Sight sight,
      List<Standing> masts,
      List<Boolean> joined) {
    for (int i = 0; i < rows * spec.cols() && !masts.isEmpty(); i++) {
      int cell = firstRow * spec.cols() + i;
      if (!ground.known(cell)) {
        continue;
      }
      int row = ground.products().eyeRow(cell);
      int col = ground.products().eyeCol(cell);
      int link = NONE;
      for (int m = 0; m < masts.size(); m++) {
        double needed = sight.neededM(masts.get(m).mast, clear(), row, col);
        out.set(ContactSettings.fileName(masts.get(m).name), skip + i, (float) needed);
        if (needed <= settings.antennaM() && joined.get(m)) {
          link = Math.min(link, masts.get(m).relay ? RELAYED : DIRECT);
        }
      }
      out.code(LINK, skip + i, link);
    }
  }

  /** True for each mast, and each relay that a chain of relays joins to a mast. */
  private List<Boolean> joined(Sight sight, List<Standing> masts) {
    boolean[] joined = new boolean[masts.size()];
    for (int m = 0; m < joined.length; m++) {
      joined[m] = !masts.get(m).relay;
    }
    for (int round = 0; round < joined.length; round++) {
      for (int a = 0; a < joined.length; a++) {
        for (int b = 0; b < joined.length; b++) {
          if (joined[a] && !joined[b]) {
            Sight.Mast to = masts.get(b).mast;
            double needed = sight.neededM(masts.get(a).mast, clear(), to.row(), to.col());
            joined[b] = needed <= to.heightM();
          }
        }
      }
    }
    List<Boolean> all = new ArrayList<>();
    for (boolean j : joined) {
      all.add(j);
    }
    return all;
  }

  /** The link of a place to a mast. */
  private record PlaceLink(
      LitPlace.Spot place, Standing mast, boolean joined, double neededM, Sight.Link link) {
    boolean overVoid() {
      return link != null && Double.isNaN(link.clearM());
    }
  }

  private void writeLinks(Path dir, Sight sight, List<Standing> masts, List<Boolean> joined) {
    List<PlaceLink> rows = new ArrayList<>();
    for (LitPlace.Spot s : LitPlace.spots(job)) {
      int row = job.spec().rowOf(s.yM());
      int col = job.spec().colOf(s.xM());
      for (int m = 0; m < masts.size() && ground.ground().knows(row, col); m++) {
        Sight.Mast mast = masts.get(m).mast;
        rows.add(
            new PlaceLink(
                s,
                masts.get(m),
                joined.get(m),
                sight.neededM(mast, clear(), row, col),
                sight.link(mast, row, col, settings.antennaM())));
      }
    }
    List<Column<PlaceLink>> columns = new ArrayList<>();
    columns.add(Column.text("place", r -> r.place.name()));
    columns.add(Column.number("x_m", 2, r -> r.place.xM()));
    columns.add(Column.number("y_m", 2, r -> r.place.yM()));
    columns.add(Column.text("mast", r -> r.mast.name));
    columns.add(Column.text("is", r -> r.mast.relay ? "relay" : "mast"));
    columns.add(Column.text("joined", r -> r.joined ? "yes" : "no"));
    columns.add(Column.text("void_on_way", r -> r.overVoid() ? "yes" : "no"));
    columns.add(Column.number("distance_m", 1, r -> r.link == null ? 0 : r.link.distanceM()));
    columns.add(Column.number("antenna_needed_m", 2, PlaceLink::neededM));
    columns.add(
        Column.number("least_clearance_m", 2, r -> r.link == null ? Double.NaN : r.link.clearM()));
    columns.add(
        Column.number("clearance_at_m", 1, r -> r.link == null ? Double.NaN : r.link.atM()));
    if (settings.frequencyMhz() != null) {
      columns.add(Column.number("fresnel_m", 2, this::fresnelM));
      columns.add(
          Column.number(
              "edge_loss_db",
              1,
              r -> RadioPath.edgeLossDb(-r.link.clearM() / fresnelM(r) * Math.sqrt(2))));
    }
    rows.removeIf(
        r ->
            settings.frequencyMhz() != null
                && (r.link == null || (!r.overVoid() && !(r.link.atM() > 0))));
    PlaceTable.write(dir.resolve("links.csv"), columns, rows, job.stages().frame());
  }

  private double fresnelM(PlaceLink r) {
    return RadioPath.fresnelM(
        settings.frequencyMhz(), r.link.atM(), r.link.distanceM() - r.link.atM());
  }

  private List<String> amountNames(List<Standing> masts) {
    List<String> names = new ArrayList<>(earth() ? List.of(EARTH, SILENCE, EDGE) : List.of());
    masts.forEach(m -> names.add(ContactSettings.fileName(m.name)));
    return names;
  }

  private List<String> codeNames(List<Standing> masts) {
    List<String> names = new ArrayList<>(earth() ? List.of(SILENCE_KIND) : List.of());
    names.addAll(masts.isEmpty() ? List.of() : List.of(LINK));
    return names;
  }

  private List<RasterProduct<LightRows, ?>> products(List<Standing> masts) {
    List<RasterProduct<LightRows, ?>> all = new ArrayList<>();
    if (earth()) {
      String window =
          " with an antenna at "
              + settings.antennaM()
              + " m, the Earth's centre more than "
              + settings.earthMarginDeg()
              + " deg above the horizon, from "
              + light.from()
              + " to "
              + light.to();
      amount(all, EARTH, "share of the time in sight of the Earth" + window, "1");
      amount(all, SILENCE, "longest time out of sight of the Earth" + window, "h");
      amount(
          all,
          EDGE,
          "share of the azimuths whose horizon lies at the edge of the data or behind a void",
          "1");
      codes(
          all,
          SILENCE_KIND,
          "whether the longest silence is known",
          Map.of(
              "CODE_1", "it lies within the window",
              "CODE_2",
                  "at least so long: the window cuts a silence, or a horizon is not surely known"));
    }
    for (Standing m : masts) {
      amount(
          all,
          ContactSettings.fileName(m.name),
          "height of an antenna above the ground that sees the "
              + (m.relay ? "relay" : "mast")
              + " of "
              + m.mast.heightM()
              + " m at "
              + m.name,
          "m");
    }
    if (!masts.isEmpty()) {
      codes(
          all,
          LINK,
          "link of an antenna at " + settings.antennaM() + " m to the masts",
          Map.of(
              "CODE_1", "in sight of a mast",
              "CODE_2", "in sight of a relay that is joined to a mast",
              "CODE_3", "no link, or ground without data on the way"));
    }
    return all;
  }

  private static void amount(
      List<RasterProduct<LightRows, ?>> all, String name, String what, String unit) {
    all.add(RasterProduct.floats(name, BandInfo.of(what, unit), rows -> rows.amount(name)));
  }

  private static void codes(
      List<RasterProduct<LightRows, ?>> all, String name, String what, Map<String, String> is) {
    Map<String, String> meanings = new LinkedHashMap<>(is);
    all.add(RasterProduct.codes(name, BandInfo.codes(what, meanings), rows -> rows.code(name)));
  }

  @Override
  public LightPlaces load(Path dir) {
    return StoredResult.read(dir, LightPlaces.class);
  }
}
