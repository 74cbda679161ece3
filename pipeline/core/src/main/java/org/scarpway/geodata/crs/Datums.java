package org.scarpway.geodata.crs;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * The datums of Earth that can be transformed to WGS 84, looked up by the names in use, and the
 * published transformations of each. Parameters and names: EPSG Dataset v10.076 (IOGP), every
 * transformation of a longitude-latitude system to WGS 84 by seven parameters or fewer that is
 * neither deprecated nor superseded; rotations in the position vector sense.
 */
public final class Datums {
  private static final String WGS84 = "wgs1984";
  private static final double UNSTATED_M = 999;

  /** Orders transformations by stated accuracy, then by smaller area of use, then newest first. */
  private static final Comparator<Shift> BEST_FIRST =
      Comparator.comparingDouble(Shift::accuracyM)
          .thenComparingDouble(Shift::sizeDeg2)
          .thenComparing(Comparator.comparingInt(Shift::operation).reversed());

  /** One published transformation with its area of use. */
  public record Shift(
      int operation,
      double accuracyM,
      double westDeg,
      double southDeg,
      double eastDeg,
      double northDeg,
      List<Double> parameters) {

    boolean moves() {
      return parameters.stream().anyMatch(v -> v != 0);
    }

    public boolean holds(double lonDeg, double latDeg) {
      boolean inLon =
          westDeg <= eastDeg
              ? lonDeg >= westDeg && lonDeg <= eastDeg
              : lonDeg >= westDeg || lonDeg <= eastDeg;
      return inLon && latDeg >= southDeg && latDeg <= northDeg;
    }

    private double sizeDeg2() {
      double width = eastDeg - westDeg;
      return (width < 0 ? width + 360 : width) * (northDeg - southDeg);
    }

    public boolean statesAccuracy() {
      return accuracyM != UNSTATED_M;
    }
  }

  /** A datum with its transformations. */
  public record Datum(String key, List<Shift> shifts) {
    /** The transformations whose area of use contains a point, the best stated accuracy first. */
    List<Shift> at(double lonDeg, double latDeg) {
      return shifts.stream().filter(s -> s.holds(lonDeg, latDeg)).sorted(BEST_FIRST).toList();
    }

    /** True if a published transformation to WGS 84 is the identity. */
    boolean isGeocentric() {
      return isWgs84() || shifts.stream().anyMatch(s -> !s.moves());
    }

    boolean isWgs84() {
      return key.equals(WGS84);
    }
  }

  private static final class Held {
    static final Datums TABLE = new Datums();
  }

  private final Map<String, Datum> byName = new HashMap<>();
  private final Map<String, Datum> byCode = new HashMap<>();

  private Datums() {
    Map<String, Datum> byCrs = new HashMap<>();
    Map<String, Datum> byKey = new HashMap<>();
    List<CSVRecord> rows = rows("datums.csv");
    for (CSVRecord r : rows) {
      Datum d = byKey.computeIfAbsent(r.get("datum"), key -> new Datum(key, new ArrayList<>()));
      byCrs.put(r.get("crs"), d);
      byCode.put("EPSG:" + r.get("crs"), d);
    }
    for (CSVRecord r : rows("shifts.csv")) {
      byCrs.get(r.get("crs")).shifts.add(shift(r));
    }
    // A datum name takes precedence over a CRS name, and both over aliases.
    rows.forEach(r -> byName.put(plain(r.get("datum_name")), byCrs.get(r.get("crs"))));
    rows.forEach(r -> byName.putIfAbsent(plain(r.get("crs_name")), byCrs.get(r.get("crs"))));
    others(rows, byCrs);
    Datum wgs84 = new Datum(WGS84, List.of());
    for (String name : new String[] {WGS84, "wgs84", "worldgeodeticsystem1984"}) {
      byName.put(name, wgs84);
    }
    byCode.put("EPSG:4326", wgs84);
  }

  /** Adds aliases, except those shared by several datums. */
  private void others(List<CSVRecord> rows, Map<String, Datum> byCrs) {
    Map<String, Datum> other = new HashMap<>();
    Set<String> unclear = new HashSet<>();
    for (CSVRecord r : rows) {
      for (String alias : r.get("aliases").split("\\|")) {
        Datum before = other.put(plain(alias), byCrs.get(r.get("crs")));
        if (before != null && !before.key.equals(r.get("datum"))) {
          unclear.add(plain(alias));
        }
      }
    }
    unclear.forEach(other::remove);
    other.forEach(byName::putIfAbsent);
    byName.remove("");
  }

  /** Looks up the datum of a geographic CRS; null if none of its names is known. */
  public static Datum of(GeographicPart geo) {
    Datums table = Held.TABLE;
    for (String name : new String[] {geo.datum(), geo.name()}) {
      String plain = plain(name);
      Datum found = table.byName.get(plain);
      String meridian = plain(geo.meridian());
      if (found == null && geo.meridianDeg() != 0 && plain.endsWith(meridian)) {
        found = table.byName.get(plain.substring(0, plain.length() - meridian.length()));
      }
      if (found != null) {
        return found;
      }
    }
    return table.byCode.get(geo.authority());
  }

  /** Reduces a name to letters, digits and plus signs; registers and files differ in the rest. */
  private static String plain(String name) {
    String s = name.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}+]", "");
    return s.endsWith("ensemble") ? s.substring(0, s.length() - 8) : s;
  }

  private static Shift shift(CSVRecord r) {
    List<Double> parameters = r.stream().skip(7).map(Double::valueOf).toList();
    return new Shift(
        Integer.parseInt(r.get("operation")),
        r.get("accuracy_m").isEmpty() ? UNSTATED_M : Double.parseDouble(r.get("accuracy_m")),
        Double.parseDouble(r.get("west_deg")),
        Double.parseDouble(r.get("south_deg")),
        Double.parseDouble(r.get("east_deg")),
        Double.parseDouble(r.get("north_deg")),
        parameters);
  }

  public static List<CSVRecord> rows(String name) {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                Datums.class.getResourceAsStream("/datums/" + name), StandardCharsets.UTF_8))) {
      return format.parse(in).getRecords();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
