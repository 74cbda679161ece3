package org.scarpway.run.unit;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.light.PlaceTrack;
import org.scarpway.light.Sky;
import org.scarpway.light.SkyPosition;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.PlaceTable;

/** Tables of light, or of sight of the Earth, at the places of a job. */
final class LightTables {
  private LightTables() {}

  private record Azimuth(LitPlace place, int index, double trueNorthDeg) {
    double gridDeg() {
      return 360.0 * index / place.around().elevationDeg().size();
    }

    double trueDeg() {
      double deg = gridDeg() - trueNorthDeg;
      return deg - 360 * Math.floor(deg / 360);
    }
  }

  private record Spell(LitPlace place, PlaceTrack.Spell spell) {}

  /** Writes the tables of light. */
  static void write(Path dir, OpenJob job, List<LitPlace> places, Sky sky, List<Instant> times) {
    places(dir, job, places, "dark", true);
    horizons(dir, job, places);
    spells(dir, places, "light", "dark");
    CsvTable.write(
        dir.resolve("sky.csv"),
        List.of(
            Column.text("utc", Look::utc),
            Column.number("sun_lon_deg", 5, l -> l.sky.sunLonDeg()),
            Column.number("sun_lat_deg", 5, l -> l.sky.sunLatDeg()),
            Column.number("sun_km", 0, l -> l.sky.sunKm()),
            Column.number("earth_lon_deg", 5, l -> l.sky.earthLonDeg()),
            Column.number("earth_lat_deg", 5, l -> l.sky.earthLatDeg()),
            Column.number("earth_km", 0, l -> l.sky.earthKm())),
        times.stream().map(t -> new Look(t.toString(), sky.at(t))).toList());
  }

  private record Look(String utc, SkyPosition sky) {}

  /** Writes the tables of sight of the Earth. */
  static void writeEarth(Path dir, OpenJob job, List<LitPlace> places) {
    places(dir, job, places, "silent", false);
    horizons(dir, job, places);
    spells(dir, places, "contact", "silent");
  }

  private static void places(
      Path dir, OpenJob job, List<LitPlace> places, String below, boolean disk) {
    List<Column<LitPlace>> columns = new ArrayList<>();
    columns.add(Column.text("place", LitPlace::name));
    columns.add(Column.number("x_m", 2, LitPlace::xM));
    columns.add(Column.number("y_m", 2, LitPlace::yM));
    if (disk) {
      columns.add(Column.number("mean_share", 4, p -> p.plain().meanShare()));
      columns.add(Column.number("mean_share_cautious", 4, p -> p.cautious().meanShare()));
    }
    columns.add(Column.number("time_share_above", 4, p -> p.cautious().aboveShare()));
    columns.add(Column.number("longest_" + below + "_h", 3, p -> hours(p.cautious())));
    columns.add(
        Column.text("longest_" + below + "_is", p -> p.longestIsAtLeast() ? "at least" : "whole"));
    PlaceTable.write(dir.resolve("places.csv"), columns, places, job.stages().frame());
  }

  private static double hours(PlaceTrack track) {
    PlaceTrack.Spell longest = track.longestBelow();
    return longest == null ? 0 : longest.hours();
  }

  private static void horizons(Path dir, OpenJob job, List<LitPlace> places) {
    List<Azimuth> rows = new ArrayList<>();
    for (LitPlace p : places) {
      double north = TrueNorth.azimuthDeg(job.stages().frame().world()::toLonLat, p.xM(), p.yM());
      for (int a = 0; a < p.around().elevationDeg().size(); a++) {
        rows.add(new Azimuth(p, a, north));
      }
    }
    CsvTable.write(
        dir.resolve("horizons.csv"),
        List.of(
            Column.text("place", a -> a.place.name()),
            Column.number("grid_azimuth_deg", 3, Azimuth::gridDeg),
            Column.number("true_azimuth_deg", 3, Azimuth::trueDeg),
            Column.number("elevation_deg", 4, a -> a.place.around().elevationDeg().get(a.index)),
            Column.text("at_edge", a -> a.place.around().atEdge().get(a.index) ? "yes" : "no")),
        rows);
  }

  private static void spells(Path dir, List<LitPlace> places, String above, String below) {
    List<Spell> rows = new ArrayList<>();
    for (LitPlace p : places) {
      p.cautious().spells().forEach(s -> rows.add(new Spell(p, s)));
    }
    CsvTable.write(
        dir.resolve("spells.csv"),
        List.of(
            Column.text("place", s -> s.place.name()),
            Column.text("state", s -> s.spell.above() ? above : below),
            Column.text("from_utc", s -> s.spell.from().toString()),
            Column.text("to_utc", s -> s.spell.to().toString()),
            Column.number("hours", 3, s -> s.spell.hours()),
            Column.text("is", s -> s.spell.cut() ? "at least" : "whole")),
        rows);
  }
}
