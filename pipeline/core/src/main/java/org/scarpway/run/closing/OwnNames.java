package org.scarpway.run.closing;

import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageFolder;
import org.scarpway.stage.UserError;

/**
 * Checks the names that a run writes to against what exists in its output folder: everything
 * written must stay in the folder that the user named, and no file of the user may be in its place.
 * Links in place of a stage's own folder are replaced.
 */
public final class OwnNames {
  private final Path folder;
  private final List<String> mistakes = new ArrayList<>();

  private OwnNames(Path folder) {
    this.folder = folder;
  }

  /**
   * @param ids of the stages, slash-separated
   * @param figures names of their figures
   * @throws UserError before anything is written, one line for each name that is not free
   */
  public static void require(Path jobFolder, List<String> ids, List<String> figures) {
    OwnNames names = new OwnNames(jobFolder);
    Set<Path> parents = new LinkedHashSet<>();
    for (String id : ids) {
      for (Path p = jobFolder.resolve(id).getParent(); !p.equals(jobFolder); p = p.getParent()) {
        parents.add(p);
      }
    }
    parents.add(jobFolder.resolve(StacCatalogue.FOLDER));
    figures.forEach(f -> parents.add(jobFolder.resolve(f).getParent()));
    parents.forEach(p -> names.aFolderOrNothing(p, false));
    for (String id : ids) {
      if (!names.isOwnFolder(jobFolder.resolve(id).getParent())) {
        continue;
      }
      names.aFolderOrNothing(jobFolder.resolve(id), true);
      new StageFolder(jobFolder, id)
          .foreign()
          .forEach(p -> names.taken(p, "holds what no run wrote"));
    }
    names.aFileOrNothing(jobFolder.resolve(JobLock.FILE));
    JobOutputs.names(ids, figures).stream()
        .filter(n -> names.isOwnFolder(jobFolder.resolve(n).getParent()))
        .forEach(names::closing);
    UserError.throwAll(names.mistakes);
  }

  /** True if the path is a folder (not a link); otherwise it has no content to report. */
  private boolean isOwnFolder(Path path) {
    return path.equals(folder) || Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS);
  }

  private void closing(String name) {
    Path file = folder.resolve(name);
    aFileOrNothing(file);
    // A killed run leaves a file at this name, never a folder.
    if (Files.isDirectory(part(file), LinkOption.NOFOLLOW_LINKS)) {
      taken(part(file), "is a folder where a run writes a file");
    }
    boolean ofARun =
        Files.exists(folder.resolve(JobOutputs.FILE), LinkOption.NOFOLLOW_LINKS)
            || !Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS);
    if (!ofARun) {
      taken(file, "is a file that no run wrote");
    }
  }

  static Path part(Path file) {
    return file.resolveSibling(file.getFileName() + ".part");
  }

  private void aFolderOrNothing(Path path, boolean orLink) {
    if (Files.isSymbolicLink(path)) {
      if (!orLink) {
        link(path);
      }
    } else if (Files.exists(path) && !Files.isDirectory(path)) {
      taken(path, "is a file where a run makes a folder");
    }
  }

  private void aFileOrNothing(Path path) {
    if (Files.isSymbolicLink(path)) {
      link(path);
    } else if (Files.isDirectory(path)) {
      taken(path, "is a folder where a run writes a file");
    }
  }

  private void link(Path path) {
    mistakes.add(
        UserError.of(path.toString(), "is a link", "a name that runs may use", "remove the link")
            .getMessage());
  }

  private void taken(Path path, String what) {
    mistakes.add(
        UserError.of(
                path.toString(),
                what,
                "a name that runs may use",
                "move it elsewhere or give another --out")
            .getMessage());
  }
}
