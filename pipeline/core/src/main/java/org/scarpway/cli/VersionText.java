package org.scarpway.cli;

import org.scarpway.run.store.Version;
import picocli.CommandLine.IVersionProvider;

/** The text printed by --version. */
final class VersionText implements IVersionProvider {
  @Override
  public String[] getVersion() {
    return new String[] {"scarpway " + Version.text()};
  }
}
