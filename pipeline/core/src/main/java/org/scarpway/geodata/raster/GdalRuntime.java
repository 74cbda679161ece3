package org.scarpway.geodata.raster;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.Vector;
import org.gdal.gdal.gdal;
import org.gdal.osr.osr;
import org.scarpway.stage.UserError;

/**
 * Loads GDAL's native library once and locks it down before it sees a file.
 *
 * <p>Only drivers that read their cells from one local file (or its plain-named partner beside it)
 * stay registered. Taken away, by group: drivers that are clients of a network service; drivers
 * whose file is a list of other files or of places on the network (virtual rasters, mosaics,
 * catalogues, tile indexes); containers with many rasters and links inside (netCDF, HDF);
 * databases; pictures without heights; and everything that elevation models do not come in. What
 * stays may name a partner file; that it lies in the same folder is checked when it is opened.
 */
final class GdalRuntime {
  /** The one command that makes GDAL ready. */
  static final String INSTALL = "pipeline/bin/build-gdal-native";

  /** Drivers a user's file may be opened with. */
  static final List<String> READ_DRIVERS =
      List.of(
          "GTiff",
          "ISIS3",
          "ISIS2",
          "PDS4",
          "PDS",
          "VICAR",
          "USGSDEM",
          "DTED",
          "SRTMHGT",
          "AAIGrid",
          "EHdr",
          "ENVI",
          "HFA",
          "JP2OpenJPEG");

  /** Writing, and GeoPackage for vectors. */
  private static final Set<String> OTHER_DRIVERS = Set.of("COG", "MEM", "GPKG");

  /** The line of versions whose functions the Java half was made for: org.gdal:gdal 3.6. */
  private static final String JAVA_HALF = "3.6.";

  private static final ThreadLocal<Boolean> QUIET = ThreadLocal.withInitial(() -> false);

  private static boolean tried;
  private static String problem;

  private GdalRuntime() {}

  /** Why GDAL cannot be used, or empty if it is ready. */
  static synchronized Optional<String> problem() {
    if (!tried) {
      problem = load();
      tried = true;
    }
    return Optional.ofNullable(problem);
  }

  static void require() {
    Optional<String> why = problem();
    if (why.isPresent()) {
      throw UserError.of("GDAL", why.get(), "the native library", "run " + INSTALL);
    }
  }

  /** Keeps GDAL's messages of this thread off stderr; they are asked for where a call fails. */
  static void quiet() {
    if (!QUIET.get()) {
      gdal.PushErrorHandler("CPLQuietErrorHandler");
      QUIET.set(true);
    }
    gdal.ErrorReset();
  }

  /** The last message in one line. */
  static String message() {
    String m = gdal.GetLastErrorMsg();
    return m == null || m.isBlank() ? "no reason given" : m.strip().replaceAll("\\s+", " ");
  }

  static String version() {
    return gdal.VersionInfo("RELEASE_NAME");
  }

  private static String load() {
    try {
      // Loaded here first: GDAL's own loader prints to stderr where the library is missing.
      System.loadLibrary("gdalalljni");
    } catch (UnsatisfiedLinkError e) {
      return "native library not found (" + e.getMessage() + ")";
    }
    try {
      String version = version();
      if (!version.startsWith(JAVA_HALF)) {
        return "native library is version " + version + ", the Java half is " + JAVA_HALF + "x";
      }
      lockDown();
      return null;
    } catch (UnsatisfiedLinkError e) {
      return "native library does not match the Java half (" + e.getMessage() + ")";
    }
  }

  private static void lockDown() {
    // Set before any driver is registered, so no plug-in or environment variable comes first.
    gdal.SetConfigOption("GDAL_DRIVER_PATH", "disable");
    gdal.SetConfigOption("CPL_DEBUG", "OFF");
    gdal.SetConfigOption("CPL_LOG", "/dev/null");
    gdal.SetConfigOption("CPL_VSIL_CURL_ALLOWED_FILENAME", "none");
    gdal.SetConfigOption("CPL_VSIL_CURL_ALLOWED_EXTENSIONS", ".none");
    gdal.SetConfigOption("GDAL_HTTP_PROXY", "http://127.0.0.1:9");
    gdal.SetConfigOption("GDAL_HTTP_MAX_RETRY", "0");
    osr.SetPROJEnableNetwork(false);
    // Neither read nor write sidecars: what a raster means is in the raster.
    gdal.SetConfigOption("GDAL_PAM_ENABLED", "NO");
    gdal.SetConfigOption("GDAL_GEOREF_SOURCES", "INTERNAL,WORLDFILE");
    // Text grids keep every digit, as the Java path does.
    gdal.SetConfigOption("AAIGRID_DATATYPE", "Float64");
    gdal.SetCacheMax(128 << 20);
    gdal.AllRegister();
    List<String> gone = new ArrayList<>();
    for (int i = gdal.GetDriverCount() - 1; i >= 0; i--) {
      var driver = gdal.GetDriver(i);
      String name = driver.getShortName();
      if (!READ_DRIVERS.contains(name) && !OTHER_DRIVERS.contains(name)) {
        gone.add(name);
        driver.Deregister();
      }
    }
    // So that registering once more does not bring them back.
    gdal.SetConfigOption("OGR_SKIP", String.join(",", gone));
  }

  /** A list as the bindings take it. */
  @SuppressWarnings("JdkObsolete") // the bindings ask for java.util.Vector
  static Vector<String> words(List<String> list) {
    return new Vector<>(list);
  }
}
