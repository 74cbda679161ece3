package org.scarpway.run.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.stage.Reason;

/** Operations on whole folders of products. */
public final class FileTree {
  private FileTree() {}

  /**
   * Thrown if a file vanished while it was being linked or copied, as when somebody empties a
   * store.
   */
  static final class Gone extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Gone(NoSuchFileException e) {
      super(Reason.of(e), e);
    }
  }

  /**
   * Removes the folder with everything below it; of a link, only the link. Does nothing if the path
   * does not exist.
   */
  public static void remove(Path tree) throws IOException {
    if (!Files.exists(tree, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    List<Path> all;
    try (Stream<Path> walk = Files.walk(tree)) {
      all = walk.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path p : all) {
      Files.deleteIfExists(p);
    }
  }

  /**
   * Links the products and the record of one folder into another: as hard links if the file system
   * supports them, else as copies. Products are never changed in place, so one content may have
   * several names.
   */
  static void link(Path from, StageRecord record, Path to) throws IOException {
    TreeSet<Path> folders = new TreeSet<>();
    for (StageRecord.FileEntry p : record.files()) {
      folders.add(link(from, p.name(), to, p.name()));
    }
    // Under this name the folder holds the mark of an unfinished folder until its record is there.
    folders.add(link(from, StageRecord.FILE, to, StageRecord.FILE + ".part"));
    Files.move(
        to.resolve(StageRecord.FILE + ".part"),
        to.resolve(StageRecord.FILE),
        StandardCopyOption.ATOMIC_MOVE,
        StandardCopyOption.REPLACE_EXISTING);
    for (Path folder : folders) {
      AtomicFileWrite.forceFolder(folder);
    }
  }

  private static Path link(Path from, String name, Path to, String newName) throws IOException {
    Path source = from.resolve(name);
    Path target = to.resolve(newName);
    Files.createDirectories(target.getParent());
    try {
      Files.createLink(target, source);
    } catch (NoSuchFileException e) {
      throw new Gone(e);
    } catch (IOException | UnsupportedOperationException e) {
      copy(source, target);
    }
    return target.getParent();
  }

  private static void copy(Path source, Path target) throws IOException {
    try {
      Files.copy(source, target);
      AtomicFileWrite.forceFile(target);
    } catch (NoSuchFileException e) {
      throw new Gone(e);
    }
  }
}
