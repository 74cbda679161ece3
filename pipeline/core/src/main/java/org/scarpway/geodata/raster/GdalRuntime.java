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
 * Loads GDAL's native library once and restricts it before it opens any file.
 *
 * <p>Only drivers that read their cells from one local file (or its plain-named partner beside it)
 * stay registered. The following groups are deregistered: drivers that are clients of a network
 * service; drivers whose file is a list of other files or of places on the network (virtual
 * rasters, mosaics, catalogues, tile indexes); containers with many rasters and links inside
 * (netCDF, HDF); databases; images without heights; and every other format not used for elevation
 * models. The remaining drivers may name a companion file; that it is in the same folder is checked
 * when the raster is opened.
 */
final class GdalRuntime {
  /** The command that installs GDAL. */
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

  /** Drivers for writing, and GeoPackage for vectors. */
  private static final Set<String> OTHER_DRIVERS = Set.of("COG", "MEM", "GPKG");

  /** The GDAL version series that the Java bindings were built for: org.gdal:gdal 3.6. */
  private static final String JAVA_HALF = "3.6.";

  private static final ThreadLocal<Boolean> QUIET = ThreadLocal.withInitial(() -> false);

  private static boolean tried;
  private static String problem;

  private GdalRuntime() {}

  /** The reason why GDAL cannot be used, or empty if it is ready. */
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

  /** Suppresses GDAL's messages on stderr for this thread; they are queried when a call fails. */
  static void quiet() {
    if (!QUIET.get()) {
      gdal.PushErrorHandler("CPLQuietErrorHandler");
      QUIET.set(true);
    }
    gdal.ErrorReset();
  }

  /** GDAL's last message as one line. */
  static String message() {
    String m = gdal.GetLastErrorMsg();
    return m == null || m.isBlank() ? "no reason given" : m.strip().replaceAll("\\s+", " ");
  }

  static String version() {
    return gdal.VersionInfo("RELEASE_NAME");
  }

  private static String load() {
    try {
      // Loaded here first, because GDAL's own loader prints to stderr if the library is missing.
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
    // ASCII grids are read as float64, as in the Java implementation.
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
    // So that another call of Register does not restore them.
    gdal.SetConfigOption("OGR_SKIP", String.join(",", gone));
  }

  /** A list in the type that the bindings require. */
  @SuppressWarnings("JdkObsolete") // the bindings ask for java.util.Vector
  static Vector<String> words(List<String> list) {
    return new Vector<>(list);
  }
}
