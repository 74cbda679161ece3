package org.scarpway.run.begin;

import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.scarpway.config.BodyReader;
import org.scarpway.config.JobReader;
import org.scarpway.dem.DemProbe;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.store.FileDigests;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/**
 * Writes a first job for an elevation model: body from its reference system, a base on open ground,
 * budgets that suit its extent. The folder appears complete or not at all.
 *
 * @param dir folder to write; must not exist, or be empty
 * @param dem elevation model
 * @param body name or file of the body; null to take the one of the reference system
 * @param at where a base is wished, in the raster's own system and unit; null for the middle
 */
public record FirstJob(Path dir, Path dem, String body, Wish at) {
  /**
   * A place in the raster's own system and unit.
   *
   * @param x coordinate eastwards, or longitude
   * @param y coordinate northwards, or latitude
   */
  public record Wish(double x, double y) {}

  private static final Map<String, Body> KNOWN =
      Map.of("moon", Body.MOON, "mars", Body.MARS, "earth", Body.EARTH);

  /**
   * @throws UserError if the folder is in use, or the file is no elevation model of a known body
   */
  public void write(RasterIo io, PrintStream out) {
    requireFree();
    DemProbe probe = DemProbe.probe(dem, io);
    Body on = bodyOf(probe);
    FirstExtent extent = FirstExtent.of(probe);
    Path part = null;
    try {
      Path parent = dir.toAbsolutePath().normalize().getParent();
      if (parent == null) {
        throw taken("is a root folder");
      }
      Files.createDirectories(parent);
      String aside = "." + dir.getFileName() + ".part-" + ProcessHandle.current().pid();
      part = Files.createDirectory(parent.resolve(aside));
      FirstFiles files = new FirstFiles(on);
      Map<String, String> values = values(probe, extent, on, files.speedMs());
      copyBody(part);
      files.writeFleet(part);
      values.put("base", place(probe.centreX(), probe.centreY(), probe));
      values.put("baseFrom", "");
      files.writeJob(part, values);
      FirstBase base = base(part.resolve("job.yaml"), values, probe, io);
      files.writeJob(part, values);
      Files.move(part, dir, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      tell(probe, extent, on, base, values, out);
    } catch (UserError e) {
      // The folder of the message is gone when it is read.
      throw part == null
          ? e
          : new UserError(e.getMessage().replace(part.toString(), dir.toString()));
    } catch (IOException e) {
      throw new StageFailure(
          dir + ": cannot be written (" + Reason.of(e) + "); choose another folder", e);
    } finally {
      discard(part);
    }
  }

  private void requireFree() {
    if (Files.isSymbolicLink(dir)) {
      throw taken("is a link");
    }
    if (!Files.exists(dir)) {
      return;
    }
    if (!Files.isDirectory(dir)) {
      throw taken("is a file");
    }
    try (Stream<Path> inside = Files.list(dir)) {
      if (inside.findAny().isPresent()) {
        throw taken("is not empty");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private UserError taken(String what) {
    return UserError.of(
        dir.toString(),
        what,
        "a folder that does not exist yet",
        "name another; nothing is overwritten");
  }

  private Body bodyOf(DemProbe probe) {
    if (body != null) {
      Body known = KNOWN.get(body.toLowerCase(Locale.ROOT));
      if (known == null && !Files.exists(Path.of(body))) {
        throw UserError.of(
            "--body",
            "no body and no file is called '" + body + "'",
            "moon, mars, earth, or a file with radius and gravity (schema body.schema.json)",
            "name one of them");
      }
      return known != null ? known : BodyReader.read(Path.of(body));
    }
    return probe
        .body()
        .orElseThrow(
            () ->
                UserError.of(
                    dem.toString(),
                    "its reference system names no body that is known",
                    "moon, mars or earth, or a file with radius and gravity",
                    "add --body moon, mars, earth or FILE.yaml (schema body.schema.json)"));
  }

  private boolean bodyIsFile() {
    return body != null && !KNOWN.containsKey(body.toLowerCase(Locale.ROOT));
  }

  private void copyBody(Path part) throws IOException {
    if (bodyIsFile()) {
      Files.copy(Path.of(body), part.resolve("body.yaml"));
    }
  }

  private Map<String, String> values(DemProbe probe, FirstExtent extent, Body on, double speedMs)
      throws IOException {
    String name = dem.getFileName().toString();
    Map<String, String> v = new LinkedHashMap<>();
    v.put(
        "file",
        name.length() > 100 || !name.matches("[\\p{L}\\p{N} ._+-]+")
            ? "the elevation model"
            : name);
    v.put("ground", groundText(probe, extent, on));
    v.put("jobFile", dir.resolve("job.yaml").toString());
    v.put("job", jobName());
    v.put("body", bodyIsFile() ? "body.yaml" : on.name());
    v.put("bodyFrom", body == null ? "from the file's reference system" : "as asked for");
    v.put("source", quoted(source()));
    v.put("window", extent.whole() ? "" : window(probe, extent));
    v.put(
        "units",
        Double.isNaN(probe.semiMajorM())
            ? "  units: metres                      # the file is tied to no body: a plane in metres\n"
            : "");
    int minutes = extent.budgetMin(speedMs);
    v.put("hours", Digits.of(minutes / 60.0));
    v.put(
        "budgetFrom", "halfway across and back at half of the rated speed, at most a working day");
    v.put(
        "bands",
        String.format(
            Locale.ROOT, "[%dmin, %dmin, %dmin]", minutes / 3, 2 * (minutes / 3), minutes));
    return v;
  }

  private static String groundText(DemProbe probe, FirstExtent extent, Body on) {
    return String.format(
        Locale.ROOT,
        "%s, %d x %d cells of about %s m, %s x %s km%s",
        on.name(),
        probe.cols(),
        probe.rows(),
        Digits.of(Math.sqrt(probe.cellXM() * probe.cellYM())),
        Digits.of(probe.extent().widthM() / 1000),
        Digits.of(probe.extent().heightM() / 1000),
        extent.whole() ? "" : ", of which the job takes a window");
  }

  private String window(DemProbe probe, FirstExtent extent) {
    double x = at == null ? probe.centreX() : at.x;
    double y = at == null ? probe.centreY() : at.y;
    return String.format(
        Locale.ROOT,
        "  window: {centre: %s, size_m: [%.0f, %.0f]}   # for a quick first answer; without this line all of the file\n",
        place(x, y, probe),
        extent.widthM(),
        extent.heightM());
  }

  /** A name relative to the folder, if the file is beside it or below that; else the whole path. */
  private String source() throws IOException {
    Path file = dem.toRealPath();
    Path home = dir.toAbsolutePath().normalize();
    Path parent = home.getParent().toRealPath();
    return file.startsWith(parent)
        ? "../" + parent.relativize(file).toString().replace('\\', '/')
        : file.toString();
  }

  private String jobName() {
    String name =
        dir.toAbsolutePath()
            .normalize()
            .getFileName()
            .toString()
            .toLowerCase(Locale.ROOT)
            .replaceAll("[^a-z0-9]+", "-")
            .replaceAll("^-|-$", "");
    String cut = name.substring(0, Math.min(64, name.length())).replaceAll("-$", "");
    return cut.isEmpty() ? "first" : quoteIfWord(cut);
  }

  /** Names that YAML would take for numbers or truth values. */
  private static String quoteIfWord(String name) {
    return name.matches("[0-9].*|true|false|null|yes|no|on|off|y|n") ? quoted(name) : name;
  }

  private static String quoted(String text) {
    return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }

  private static String place(double x, double y, DemProbe probe) {
    // Cells of degrees are a few hundred-thousandths wide; eight decimals are about a millimetre.
    boolean degrees = probe.degrees();
    return "[" + rounded(x, degrees ? 8 : 2) + ", " + rounded(y, degrees ? 8 : 2) + "]";
  }

  private static String rounded(double v, int decimals) {
    BigDecimal d = BigDecimal.valueOf(v).setScale(decimals, RoundingMode.HALF_EVEN);
    return d.signum() == 0 ? "0" : d.stripTrailingZeros().toPlainString();
  }

  private FirstBase base(Path jobFile, Map<String, String> values, DemProbe probe, RasterIo io) {
    try (Workers workers = new Workers(Runtime.getRuntime().availableProcessors())) {
      OpenJob open =
          OpenJob.openToCheck(
              JobReader.read(jobFile, Map.of()), io, new FileDigests(), workers, Progress.NONE);
      open.checkHeights();
      PlaceFrame frame = open.stages().frame();
      GridSpec spec = open.spec();
      double[] wish =
          at == null
              ? new double[] {
                (spec.westM() + spec.eastM()) / 2, (spec.southM() + spec.northM()) / 2
              }
              : frame.fromRaster(at.x, at.y);
      if (!frame.holds(wish)) {
        throw UserError.of(
            "--at", PlaceFrame.text(at.x, at.y, false), frame.range(false), "correct it");
      }
      FirstBase base = FirstBase.near(wish[0], wish[1], open);
      double[] own = frame.toRaster(base.xM(), base.yM());
      values.put("base", place(own[0], own[1], probe));
      values.put(
          "baseFrom",
          "              # proposed: open to this vehicle and on foot, "
              + Math.round(100 * base.openShare())
              + " % of the ground about it is go. Put YOURS");
      return base;
    }
  }

  private void tell(
      DemProbe probe,
      FirstExtent extent,
      Body on,
      FirstBase base,
      Map<String, String> values,
      PrintStream out) {
    out.println(dem + ": " + groundText(probe, extent, on));
    out.println(
        "base proposed at x, y "
            + values.get("base")
            + ": open, and "
            + Math.round(100 * base.openShare())
            + " % of the ground about it is go");
    out.println("budget " + values.get("hours") + " h, bands " + values.get("bands"));
    out.println("written to " + dir + "; the vehicle, walker and soil in it are stand-ins");
    out.println("next: scarpway run " + dir.resolve("job.yaml"));
  }

  /** Removes what is left after a failure; nothing is left after the folder was renamed. */
  private static void discard(Path part) {
    if (part == null || !Files.exists(part)) {
      return;
    }
    try (Stream<Path> all = Files.walk(part)) {
      all.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
    } catch (IOException e) {
      part.toFile().deleteOnExit();
    }
  }
}
