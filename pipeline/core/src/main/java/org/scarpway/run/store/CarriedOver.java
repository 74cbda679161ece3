package org.scarpway.run.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.scarpway.geodata.file.AtomicFileWrite;

/**
 * What stands in a replaced folder and was not written by a run, on its way to the folder that took
 * its place. Only a file whose content is still the one that the folder's record names is the
 * run's; all else is moved over under its own name, or as {@code NAME.kept} where a new product of
 * other content has that name. Every step is one rename or one removal, so that an end at any
 * moment loses nothing, and the same again does the rest.
 */
public final class CarriedOver {
  private static final String KEPT = ".kept";

  /** One change on disk; removal where there is no place to go to. */
  record Step(Path from, Path to) {
    void take() throws IOException {
      if (to == null) {
        Files.deleteIfExists(from);
      } else {
        Files.createDirectories(to.getParent());
        Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
      }
    }
  }

  private final Path old;
  private final Path folder;
  private final Map<Path, StageRecord.Product> listed;
  private final List<Step> moves = new ArrayList<>();
  private final List<Step> removals = new ArrayList<>();
  private final Set<Path> claimed = new HashSet<>();
  private final List<String> kept = new ArrayList<>();

  private CarriedOver(Path old, Path folder) {
    this.old = old;
    this.folder = folder;
    this.listed =
        StageRecord.listed(old).stream()
            .collect(
                Collectors.toMap(
                    p -> old.resolve(p.name()),
                    Function.identity(),
                    (a, b) -> a,
                    LinkedHashMap::new));
  }

  /** What is to be done until nothing is left of the old folder. */
  static List<Step> steps(Path old, Path folder) throws IOException {
    return plan(old, folder).steps();
  }

  /**
   * Does it.
   *
   * @return what could not keep its name, a line each
   */
  static List<String> carry(Path old, Path folder) throws IOException {
    CarriedOver all = plan(old, folder);
    for (Step s : all.steps()) {
      s.take();
    }
    if (!all.moves.isEmpty()) {
      AtomicFileWrite.forceFolder(folder);
    }
    return all.kept;
  }

  /**
   * A file at the name of a product goes to a name of its own.
   *
   * @return where it is now
   */
  public static Path setAside(Path file) throws IOException {
    Path to = free(file, file, Set.of());
    Files.move(file, to, StandardCopyOption.ATOMIC_MOVE);
    return to;
  }

  private static CarriedOver plan(Path old, Path folder) throws IOException {
    CarriedOver all = new CarriedOver(old, folder);
    if (Files.isSymbolicLink(old)) {
      all.removals.add(new Step(old, null));
    } else if (!Files.isDirectory(old)) {
      all.move(old, free(folder, folder, all.claimed));
    } else {
      all.folder(old, folder);
      // The record goes last: as long as anything is left, it tells whose it is.
      all.removals.add(new Step(old.resolve(StageRecord.FILE), null));
      all.removals.add(new Step(old, null));
    }
    return all;
  }

  private List<Step> steps() {
    List<Step> all = new ArrayList<>(moves);
    all.addAll(removals);
    return all;
  }

  private void folder(Path from, Path to) throws IOException {
    List<Path> entries;
    try (Stream<Path> list = Files.list(from)) {
      entries = list.sorted().toList();
    }
    for (Path entry : entries) {
      Path target = to.resolve(entry.getFileName());
      boolean there = Files.exists(target, LinkOption.NOFOLLOW_LINKS) || claimed.contains(target);
      if (isOfTheRun(entry)) {
        if (!entry.equals(old.resolve(StageRecord.FILE))) {
          removals.add(new Step(entry, null));
        }
      } else if (isFolder(entry) && (there ? isFolder(target) : holdsProducts(entry))) {
        folder(entry, target);
        removals.add(new Step(entry, null));
      } else if (!there) {
        move(entry, target);
      } else if (sameContent(entry, target)) {
        removals.add(new Step(entry, null));
      } else {
        Path free = free(target, entry, claimed);
        move(entry, free);
        kept.add(folder.relativize(target) + " was no run's: kept as " + free.getFileName());
      }
    }
  }

  private void move(Path from, Path to) {
    moves.add(new Step(from, to));
    claimed.add(to);
  }

  /** Hidden files beside the products are nobody's but the run's. */
  private boolean isOfTheRun(Path entry) throws IOException {
    if (entry.equals(old.resolve(StageRecord.FILE))
        || entry.equals(old.resolve(StageRecord.FILE + ".part"))) {
      return !isFolder(entry);
    }
    StageRecord.Product p = listed.get(entry);
    return p != null
        && Files.isRegularFile(entry, LinkOption.NOFOLLOW_LINKS)
        && (p.name().startsWith(".") || p.isThere(entry));
  }

  private boolean holdsProducts(Path entry) {
    return listed.keySet().stream().anyMatch(p -> p.startsWith(entry));
  }

  private static boolean isFolder(Path entry) {
    return Files.isDirectory(entry, LinkOption.NOFOLLOW_LINKS);
  }

  public static boolean sameContent(Path one, Path other) throws IOException {
    return Files.isRegularFile(one, LinkOption.NOFOLLOW_LINKS)
        && Files.isRegularFile(other, LinkOption.NOFOLLOW_LINKS)
        && Files.mismatch(one, other) < 0;
  }

  /** A name that is free where the entry goes to and where it comes from. */
  private static Path free(Path target, Path entry, Set<Path> claimed) {
    for (int i = 1; ; i++) {
      Path free = sibling(target, target.getFileName() + KEPT + (i == 1 ? "" : "-" + i));
      if (!claimed.contains(free)
          && !Files.exists(free, LinkOption.NOFOLLOW_LINKS)
          && !Files.exists(entry.resolveSibling(free.getFileName()), LinkOption.NOFOLLOW_LINKS)) {
        return free;
      }
    }
  }

  /** Names are bytes to the file system; those that this locale has no letters for lose them. */
  private static Path sibling(Path target, String name) {
    try {
      return target.resolveSibling(name);
    } catch (InvalidPathException e) {
      return target.resolveSibling(name.replaceAll("[^ -~]", "_"));
    }
  }
}
