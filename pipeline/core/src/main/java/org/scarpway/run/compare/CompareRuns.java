package org.scarpway.run.compare;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.ComparisonData;
import org.scarpway.report.ComparisonData.Change;
import org.scarpway.report.ComparisonPage;
import org.scarpway.run.compare.RunAnswers.Figure;
import org.scarpway.run.product.Durations;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageKey;
import org.scarpway.stage.Digits;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/** Compares the answers of finished runs, and writes report, table and rasters of the changes. */
public final class CompareRuns {
  private static final int VERSION = 2;
  private static final String REPORT = "index.html";
  private static final String TABLE = "comparison.csv";

  /** Cells of a map in the report; larger ground is shown by regular samples. */
  private static final int MOST_SHOWN = 4_000_000;

  private final List<ComparedRun> runs;
  private final ComparedRun first;
  private final GridSpec spec;
  private final RasterIo io;
  private final ShownCells shown;
  private final String name;
  private final boolean oneVehicle;
  private final List<String> sentences = new ArrayList<>();
  private final List<Change> changes = new ArrayList<>();

  private CompareRuns(List<ComparedRun> runs, RasterIo io, String name) {
    this.runs = runs;
    this.first = runs.get(0);
    this.spec = first.spec();
    this.io = io;
    this.name = name;
    this.oneVehicle = runs.stream().allMatch(r -> r.named("mobility").size() == 1);
    int step = 1;
    while ((long) (spec.rows() / step) * (spec.cols() / step) > MOST_SHOWN) {
      step++;
    }
    this.shown = new ShownCells(spec, step);
  }

  /**
   * @param folders of the runs; the others are held against the first
   * @param out folder in which the folder of the comparison goes
   * @param name of that folder
   * @throws UserError before anything is written, if a folder holds no finished run or the runs are
   *     on different grids
   */
  public static void run(List<Path> folders, Path out, String name, RasterIo io, PrintStream said) {
    if (new LinkedHashSet<>(folders.stream().map(CompareRuns::real).toList()).size() < 2) {
      throw UserError.of(
          "compare",
          "one run",
          "two or more folders of finished runs",
          "name another run to hold it against");
    }
    if (!name.matches("[A-Za-z0-9][A-Za-z0-9._-]*")) {
      throw UserError.of(
          "--name", "'" + name + "'", "letters, digits, '.', '_' and '-'", "give such a name");
    }
    List<String> names = ComparedRun.names(folders);
    List<ComparedRun> runs = new ArrayList<>();
    for (int i = 0; i < folders.size(); i++) {
      runs.add(ComparedRun.read(folders.get(i), names.get(i), io));
    }
    requireOneGrid(runs);
    StageFolder folder = new StageFolder(out, name);
    requireFree(folder);
    StageKey.Builder key = StageKey.of("compare", VERSION);
    for (ComparedRun r : runs) {
      key.add("run " + r.name(), r.keys()).add("settings of " + r.name(), r.settings());
    }
    CompareRuns comparison = new CompareRuns(runs, io, name);
    try (JobLock held = JobLock.take(out)) {
      new StageFolder(held.folder(), name).replace(key.build(), comparison::write);
    }
    comparison.sentences.forEach(said::println);
    said.println("Comparison: " + folder.path().resolve(REPORT));
  }

  private static Path real(Path folder) {
    try {
      return folder.toRealPath();
    } catch (IOException e) {
      return folder.toAbsolutePath().normalize();
    }
  }

  /** Returns the runs in groups that can be compared, those on one map and grid, in their order. */
  public static List<List<Path>> onOneGrid(List<Path> folders, RasterIo io) {
    List<List<ComparedRun>> groups = new ArrayList<>();
    for (Path folder : folders) {
      ComparedRun run = ComparedRun.read(folder, folder.getFileName().toString(), io);
      groups.stream()
          .filter(g -> sameGround(g.get(0), run))
          .findFirst()
          .ifPresentOrElse(g -> g.add(run), () -> groups.add(new ArrayList<>(List.of(run))));
    }
    return groups.stream().map(g -> g.stream().map(ComparedRun::folder).toList()).toList();
  }

  private static boolean sameGround(ComparedRun a, ComparedRun b) {
    return a.spec().sameCellsAs(b.spec())
        && CrsText.read(a.spec().crsWkt()).sameAs(CrsText.read(b.spec().crsWkt()));
  }

  private static void requireOneGrid(List<ComparedRun> runs) {
    ComparedRun first = runs.get(0);
    MapCrs map = CrsText.read(first.spec().crsWkt());
    for (ComparedRun r : runs) {
      if (!r.spec().sameCellsAs(first.spec())) {
        throw UserError.of(
            r.folder().toString(),
            "is on another grid (" + text(r.spec()) + ") than " + first.folder(),
            text(first.spec()),
            "run both with the same dem.window and dem.cell_size_m");
      }
      MapCrs other = CrsText.read(r.spec().crsWkt());
      if (!other.sameAs(map)) {
        throw UserError.of(
            r.folder().toString(),
            "its cells have the numbers of "
                + first.folder()
                + " in another reference system ("
                + other.name()
                + "), so they are other ground",
            map.name(),
            "compare runs on one map");
      }
    }
  }

  /** In full, so that two grids that differ have two texts. */
  private static String text(GridSpec s) {
    return s.rows()
        + " x "
        + s.cols()
        + " cells of "
        + (s.cellXM() == s.cellYM() ? "" + s.cellXM() : s.cellXM() + " x " + s.cellYM())
        + " m from E "
        + s.westM()
        + " N "
        + s.northM();
  }

  private static void requireFree(StageFolder folder) {
    Path path = folder.path();
    boolean taken =
        Files.exists(path, LinkOption.NOFOLLOW_LINKS)
            && (!Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS) || folder.record() == null);
    if (taken) {
      throw UserError.of(
          path.toString(),
          "is there and is no comparison",
          "a name that is free, or an earlier comparison",
          "give another --name or --out");
    }
  }

  private void write(Path dir) {
    List<Map<Figure, String>> answers =
        runs.stream().map(r -> RunAnswers.of(r, oneVehicle)).toList();
    Set<Figure> figures = new LinkedHashSet<>();
    answers.forEach(a -> figures.addAll(a.keySet()));
    for (ComparedRun other : runs.subList(1, runs.size())) {
      compare(dir, other, answers.get(0), answers.get(runs.indexOf(other)));
    }
    List<List<String>> rows = new ArrayList<>();
    for (Figure f : figures) {
      List<String> row = new ArrayList<>(List.of(f.part(), f.name(), f.unit()));
      answers.forEach(a -> row.add(a.getOrDefault(f, "")));
      for (int i = 1; i < runs.size(); i++) {
        row.add(
            RunAnswers.change(
                f, answers.get(0).getOrDefault(f, ""), answers.get(i).getOrDefault(f, "")));
      }
      rows.add(row);
    }
    List<List<String>> settings = settings();
    table(dir.resolve(TABLE), rows, settings);
    sentences.add(
        settings.isEmpty()
            ? "No setting and no input differs."
            : settings.size()
                + (settings.size() == 1
                    ? " setting or input differs: "
                    : " settings or inputs differ: ")
                + String.join(", ", settings.stream().limit(6).map(r -> r.get(0)).toList())
                + (settings.size() > 6 ? " and " + (settings.size() - 6) + " more." : "."));
    ComparisonPage.write(
        dir.resolve(REPORT),
        new ComparisonData(
            name,
            runs.stream().map(ComparedRun::name).toList(),
            runs.stream().map(CompareRuns::origin).toList(),
            sentences,
            rows,
            settings,
            changes,
            shown.floats(first.file(ComparedRun.ELEVATION)),
            shown.floats(first.file("terrain/gradient_east.tif")),
            shown.floats(first.file("terrain/gradient_north.tif")),
            LonLat.NONE));
  }

  /** Two runs of one job differ by their folders. */
  private static String origin(ComparedRun r) {
    return "in "
        + r.folder()
        + ", version "
        + r.version()
        + ", job file "
        + r.jobDigest().substring(0, 12);
  }

  private void compare(
      Path dir, ComparedRun other, Map<Figure, String> was, Map<Figure, String> is) {
    ChangedGround ground = new ChangedGround(io, spec);
    for (String question : first.named("reach")) {
      String part = "reach/" + question;
      if (other.keys().containsKey(part)) {
        String file = part + "/" + other.name() + ".tif";
        long[] cells =
            ground.reach(
                first.file(part + "/state.tif"),
                other.file(part + "/state.tif"),
                folder(dir, file),
                "surely reached, " + other.name() + " against " + first.name());
        sentences.add(reachText(question, other, cells) + targetsText(part, was, is));
        changes.add(
            new Change(
                question + ": " + other.name() + " against " + first.name(),
                true,
                shown.codes(dir.resolve(file)),
                file));
      } else {
        sentences.add(question + ": not answered by " + other.name() + ".");
      }
    }
    for (String question : other.named("reach")) {
      if (!first.keys().containsKey("reach/" + question)) {
        sentences.add(question + ": answered by " + other.name() + " alone.");
      }
    }
    Set<String> ways = new TreeSet<>(first.named("corridor"));
    ways.addAll(other.named("corridor"));
    ways.forEach(way -> sentences.add(wayText(way, other, was, is)));
    for (String vehicle : first.named("mobility")) {
      String theirs = oneVehicle ? other.named("mobility").get(0) : vehicle;
      if (other.named("mobility").contains(theirs)) {
        String file = "mobility/" + vehicle + "/" + other.name() + ".tif";
        long[] cells =
            ground.classes(
                first.file("mobility/" + vehicle + "/class.tif"),
                other.file("mobility/" + theirs + "/class.tif"),
                folder(dir, file),
                "class of ground, " + other.name() + " against " + first.name());
        String title =
            (theirs.equals(vehicle) ? vehicle : vehicle + " and " + theirs)
                + ": "
                + other.name()
                + " against "
                + first.name();
        ByteGrid codes = shown.codes(dir.resolve(file));
        changes.add(new Change(title, false, ClassChange.shown(codes), file));
        sentences.add(title + ": " + ClassChange.text(cells, spec.cellAreaM2()) + ".");
      }
    }
  }

  private String wayText(
      String way, ComparedRun other, Map<Figure, String> was, Map<Figure, String> is) {
    String part = "corridor/" + way;
    boolean before = first.keys().containsKey(part);
    if (!before || !other.keys().containsKey(part)) {
      ComparedRun without = before ? other : first;
      return way
          + ": "
          + (without.failed().containsKey(part) ? "no way in " : "not asked of ")
          + without.name()
          + "; "
          + (before ? first : other).name()
          + " has one.";
    }
    return way
        + ": "
        + first.name()
        + " "
        + wayText(part, was)
        + ", "
        + other.name()
        + " "
        + wayText(part, is)
        + ".";
  }

  private static String wayText(String part, Map<Figure, String> of) {
    String lengthM = of.get(new Figure(part, RunAnswers.LENGTH, "m"));
    String timeS = of.get(new Figure(part, RunAnswers.ARRIVAL, "s"));
    return Digits.of(Double.parseDouble(lengthM) / 1000)
        + " km in "
        + Durations.text(Double.parseDouble(timeS));
  }

  private String reachText(String question, ComparedRun other, long[] cells) {
    double km2 = spec.cellAreaM2() / 1e6;
    return String.format(
        Locale.ROOT,
        "%s: %s surely reaches %s km2, %s %s km2 (%s km2 gained, %s km2 lost)",
        question,
        first.name(),
        Digits.of((cells[Change.BOTH] + cells[Change.LOST]) * km2),
        other.name(),
        Digits.of((cells[Change.BOTH] + cells[Change.GAINED]) * km2),
        Digits.of(cells[Change.GAINED] * km2),
        Digits.of(cells[Change.LOST] * km2));
  }

  private static String targetsText(String part, Map<Figure, String> was, Map<Figure, String> is) {
    List<String> gained = new ArrayList<>();
    List<String> lost = new ArrayList<>();
    for (Map.Entry<Figure, String> e : was.entrySet()) {
      Figure f = e.getKey();
      if (f.part().equals(part) && f.name().startsWith("target ") && f.unit().isEmpty()) {
        boolean before = e.getValue().equals("reached");
        boolean after = is.getOrDefault(f, "").equals("reached");
        String target = f.name().substring("target ".length());
        if (is.containsKey(f) && before != after) {
          (after ? gained : lost).add(target);
        }
      }
    }
    return (gained.isEmpty() ? "" : "; targets gained: " + String.join(", ", gained))
        + (lost.isEmpty() ? "" : "; targets lost: " + String.join(", ", lost))
        + ".";
  }

  private static Path folder(Path dir, String file) {
    Path path = dir.resolve(file);
    try {
      Files.createDirectories(path.getParent());
    } catch (IOException e) {
      throw new StageFailure("cannot make " + path.getParent() + ": " + Reason.of(e), e);
    }
    return path;
  }

  /** Settings in effect and input files that are not the same in every run. */
  private List<List<String>> settings() {
    List<List<String>> rows = new ArrayList<>();
    Set<String> keys = new TreeSet<>();
    Set<String> inputs = new TreeSet<>();
    runs.forEach(r -> keys.addAll(r.settings().keySet()));
    runs.forEach(r -> inputs.addAll(r.inputs().keySet()));
    keys.remove("job");
    for (String key : keys) {
      add(rows, key, runs.stream().map(r -> r.settings().getOrDefault(key, "")).toList());
    }
    for (String file : inputs) {
      boolean everywhere = runs.stream().allMatch(r -> r.inputs().containsKey(file));
      if (everywhere) {
        add(
            rows,
            "content of " + file,
            runs.stream().map(r -> r.inputs().get(file).substring(0, 12)).toList());
      }
    }
    return rows;
  }

  private static void add(List<List<String>> rows, String key, List<String> values) {
    if (values.stream().distinct().count() > 1) {
      List<String> row = new ArrayList<>(List.of(key));
      row.addAll(values);
      rows.add(row);
    }
  }

  private void table(Path file, List<List<String>> answers, List<List<String>> settings) {
    List<Column<List<String>>> columns = new ArrayList<>();
    List<String> heads = new ArrayList<>(List.of("part", "figure", "unit"));
    runs.forEach(r -> heads.add(r.name()));
    runs.subList(1, runs.size()).forEach(r -> heads.add("change_" + r.name()));
    for (int i = 0; i < heads.size(); i++) {
      int at = i;
      columns.add(Column.text(heads.get(i), row -> row.get(at)));
    }
    List<List<String>> all = new ArrayList<>(answers);
    for (List<String> s : settings) {
      List<String> cells = new ArrayList<>(List.of("setting", s.get(0), ""));
      cells.addAll(s.subList(1, s.size()));
      while (cells.size() < heads.size()) {
        cells.add("");
      }
      all.add(cells);
    }
    CsvTable.write(file, columns, all);
  }
}
