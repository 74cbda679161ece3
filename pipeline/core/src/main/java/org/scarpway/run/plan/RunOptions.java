package org.scarpway.run.plan;

import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.run.store.StageStore;

/**
 * How jobs are run.
 *
 * @param out every job's folder is made below it
 * @param fresh ignore finished products
 * @param store folder of finished stages that jobs share; null for none
 * @param storeBytes what the store may hold that no job folder holds
 * @param tryAnyway run even what the estimates say will not fit
 * @param debug print the stack trace of a failure
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
  public RunOptions {
    set = new TreeMap<>(set);
  }

  public StageStore openStore() {
    return new StageStore(store, storeBytes);
  }
}
