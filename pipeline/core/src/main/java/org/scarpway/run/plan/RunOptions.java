package org.scarpway.run.plan;

import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.run.store.AskedFronts;
import org.scarpway.run.store.ContentFiles;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.StageStore;

/**
 * Options of a call that runs jobs.
 *
 * @param out folder below which every job's folder is made
 * @param threads number of threads, at least 1; results do not depend on it
 * @param fresh true to ignore finished products
 * @param progress how progress is shown
 * @param store folder of finished stages shared by jobs; null for none
 * @param storeBytes bound on the bytes that only the store holds, not any job folder
 * @param tryAnyway true to run even what the estimates say will not fit
 * @param debug true to print the stack trace of a failure
 * @param set overrides of job settings by dotted key
 */
public record RunOptions(
    Path out,
    int threads,
    boolean fresh,
    ProgressStyle progress,
    Path store,
    long storeBytes,
    boolean tryAnyway,
    boolean debug,
    Map<String, String> set) {
  /** Copies the overrides. */
  public RunOptions {
    set = new TreeMap<>(set);
  }

  /** Bound on the bytes of the store of wavefronts. */
  public long frontBytes() {
    return storeBytes / 4;
  }

  /**
   * Opens the store of wavefronts, which a fresh run only writes. It may take a quarter of the
   * bytes of the store of finished stages, in addition to them.
   */
  public AskedFronts openFronts() {
    Path folder = store == null ? null : store.resolve("fronts");
    return new AskedFronts(new ContentFiles(folder, frontBytes(), fresh));
  }

  /** Opens the store of finished stages; without a folder it holds nothing. */
  public StageStore openStore(FileDigests digests) {
    return new StageStore(store, storeBytes, digests);
  }
}
