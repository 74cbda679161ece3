package org.scarpway.run.store;

/** The version of this program as its jar says it. */
public final class Version {
  private Version() {}

  public static String text() {
    String v = Version.class.getPackage().getImplementationVersion();
    return v == null ? "development" : v;
  }
}
