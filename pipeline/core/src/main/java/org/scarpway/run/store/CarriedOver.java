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
 * Moves files that no run wrote from a replaced folder to the folder that replaced it. A file
 * belongs to the run only if its content is still the one that the folder's record names. All
 * others are moved under their own name, or as {@code NAME.kept} if a new product with other
 * content has that name. Every step is one rename or one removal, so that an interruption at any
 * moment loses nothing, and repeating the call completes the work.
 */
public final class CarriedOver {
  private static final String KEPT = ".kept";

  /** One change on disk: a rename, or a removal if {@code to} is null. */
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
  private final Map<Path, StageRecord.FileEntry> listed;
  private final FileDigests digests = new FileDigests();
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

  /** Returns the steps after which nothing is left of the old folder. */
  static List<Step> steps(Path old, Path folder) throws IOException {
    return plan(old, folder).steps();
  }

  /**
   * Executes the steps.
   *
   * @return the files that could not keep their name, one line each
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
   * Renames a file that has the name of a product.
   *
   * @return its new path
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
      // The record is removed last: while anything is left, it identifies the run's files.
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

  /** Hidden files beside the products can only be the run's. */
  private boolean isOfTheRun(Path entry) throws IOException {
    if (entry.equals(old.resolve(StageRecord.FILE))
        || entry.equals(old.resolve(StageRecord.FILE + ".part"))) {
      return !isFolder(entry);
    }
    StageRecord.FileEntry p = listed.get(entry);
    return p != null
        && Files.isRegularFile(entry, LinkOption.NOFOLLOW_LINKS)
        && (p.name().startsWith(".") || p.isThere(entry, digests));
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

  /** Returns a name that is free both in the target folder and in the source folder. */
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

  /**
   * File names are bytes to the file system; characters that this locale cannot encode are replaced
   * by _.
   */
  private static Path sibling(Path target, String name) {
    try {
      return target.resolveSibling(name);
    } catch (InvalidPathException e) {
      return target.resolveSibling(name.replaceAll("[^ -~]", "_"));
    }
  }
}
