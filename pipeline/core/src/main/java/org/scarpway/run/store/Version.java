package org.scarpway.run.store;

/** The version of this program as stated in its jar. */
public final class Version {
  private Version() {}

  /** Returns the version, or "development" outside a jar. */
  public static String text() {
    String v = Version.class.getPackage().getImplementationVersion();
    return v == null ? "development" : v;
  }
}
