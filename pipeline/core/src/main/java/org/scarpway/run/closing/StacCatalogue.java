package org.scarpway.run.closing;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.store.StageRecord;
import org.scarpway.stage.StageFailure;

/**
 * Writes a STAC 1.1.0 catalogue of a run's products: one item per stage folder, one asset per file.
 * The item's time is the newest modification time of the elevation files, since no product is newer
 * knowledge of the ground than they are. On bodies other than Earth the geometry is null, because
 * GeoJSON is defined on WGS 84 only; the properties then hold the body and the extent in metres.
 */
final class StacCatalogue {
  static final String FOLDER = "stac";
  private static final String STAC_VERSION = "1.1.0";

  /** The extensions that define the prefixed fields: proj and ssys. */
  private static final List<String> EXTENSIONS =
      List.of(
          "https://stac-extensions.github.io/projection/v2.0.0/schema.json",
          "https://stac-extensions.github.io/ssys/v1.1.0/schema.json");

  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
  private static final Map<String, String> MEDIA =
      Map.of(
          "tif", "image/tiff; application=geotiff",
          "gpkg", "application/geopackage+sqlite3",
          "geojson", "application/geo+json",
          "csv", "text/csv",
          "gpx", "application/gpx+xml",
          "svg", "image/svg+xml",
          "png", "image/png");

  private StacCatalogue() {}

  /**
   * Returns the names of the catalogue's files, relative to the job folder.
   *
   * @param folders stage folders below the job folder
   */
  static List<String> names(List<String> folders) {
    List<String> names = new ArrayList<>();
    folders.forEach(f -> names.add(FOLDER + "/" + item(f) + ".json"));
    names.add(FOLDER + "/catalog.json");
    return names;
  }

  private static String item(String folder) {
    return folder.replace('/', '-');
  }

  /**
   * @param folders stage folders below the job folder
   * @param figures names of the figures below the job folder
   */
  static void write(
      Path jobFolder, Job job, GridSpec spec, List<String> folders, List<String> figures) {
    Path stac = jobFolder.resolve(FOLDER);
    String time = newest(job.dem().sources());
    ObjectNode catalogue = JSON.createObjectNode();
    catalogue.put("type", "Catalog");
    catalogue.put("stac_version", STAC_VERSION);
    catalogue.putArray("stac_extensions");
    catalogue.put("id", job.name());
    catalogue.put("title", "Products of job " + job.name());
    catalogue.put(
        "description",
        "Terrain, hazard, mobility, reach and corridor products on "
            + job.dem().body().name()
            + ".");
    ArrayNode links = catalogue.putArray("links");
    link(links, "root", "./catalog.json", "application/json");
    link(links, "self", "./catalog.json", "application/json");
    for (String folder : folders) {
      String id = item(folder);
      link(links, "item", "./" + id + ".json", "application/geo+json");
      ObjectNode item = item(jobFolder, job, spec, folder, id, time);
      figures.stream()
          .filter(f -> isOf(id, f))
          .forEach(f -> asset((ObjectNode) item.get("assets"), f, "overview"));
      put(stac.resolve(id + ".json"), item);
    }
    put(stac.resolve("catalog.json"), catalogue);
  }

  private static ObjectNode item(
      Path jobFolder, Job job, GridSpec spec, String folder, String id, String time) {
    ObjectNode item = JSON.createObjectNode();
    item.put("type", "Feature");
    item.put("stac_version", STAC_VERSION);
    EXTENSIONS.forEach(item.putArray("stac_extensions")::add);
    item.put("id", job.name() + "-" + id);
    Body body = job.dem().body();
    WorldMap world = WorldMap.of(spec);
    if (body.sameFigureAs(Body.EARTH.semiMajorM(), Body.EARTH.semiMinorM()) && world.known()) {
      footprint(item, world, spec);
    } else {
      item.putNull("geometry");
    }
    ObjectNode properties = item.putObject("properties");
    properties.put("datetime", time);
    properties.put("title", folder);
    properties.putArray("ssys:targets").add(body.name());
    ArrayNode shape = properties.putArray("proj:shape");
    shape.add(spec.rows()).add(spec.cols());
    ArrayNode box = properties.putArray("proj:bbox");
    box.add(spec.westM()).add(spec.southM()).add(spec.eastM()).add(spec.northM());
    ArrayNode links = item.putArray("links");
    link(links, "root", "./catalog.json", "application/json");
    link(links, "parent", "./catalog.json", "application/json");
    ObjectNode assets = item.putObject("assets");
    products(jobFolder.resolve(folder)).forEach(f -> asset(assets, folder + "/" + f, "data"));
    return item;
  }

  /** True if a figure shows the products of an item. */
  private static boolean isOf(String item, String figure) {
    String name = figure.substring(figure.indexOf('/') + 1);
    return name.startsWith(item + ".") || name.startsWith(item + "_");
  }

  /**
   * @param path below the job folder
   */
  private static void asset(ObjectNode assets, String path, String role) {
    String file = path.substring(path.lastIndexOf('/') + 1);
    ObjectNode asset = assets.putObject(file.replace('.', '_'));
    asset.put("href", "../" + path);
    asset.put("type", MEDIA.get(file.substring(file.lastIndexOf('.') + 1)));
    asset.putArray("roles").add(role);
  }

  private static void footprint(ObjectNode item, WorldMap world, GridSpec spec) {
    double[][] corners = {
      {spec.westM(), spec.southM()},
      {spec.eastM(), spec.southM()},
      {spec.eastM(), spec.northM()},
      {spec.westM(), spec.northM()},
      {spec.westM(), spec.southM()}
    };
    ObjectNode geometry = item.putObject("geometry");
    geometry.put("type", "Polygon");
    ArrayNode ring = geometry.putArray("coordinates").addArray();
    double[] box = {180, 90, -180, -90};
    for (double[] c : corners) {
      double[] lonLat = world.toLonLat(c[0], c[1]);
      ring.addArray().add(lonLat[0]).add(lonLat[1]);
      box[0] = Math.min(box[0], lonLat[0]);
      box[1] = Math.min(box[1], lonLat[1]);
      box[2] = Math.max(box[2], lonLat[0]);
      box[3] = Math.max(box[3], lonLat[1]);
    }
    item.putArray("bbox").add(box[0]).add(box[1]).add(box[2]).add(box[3]);
  }

  /**
   * Returns only files that the stage wrote: files that somebody placed beside them are not
   * products.
   */
  private static List<String> products(Path folder) {
    return StageRecord.read(folder).files().stream()
        .map(StageRecord.FileEntry::name)
        .filter(n -> !n.startsWith(".") && MEDIA.containsKey(n.substring(n.lastIndexOf('.') + 1)))
        .sorted()
        .toList();
  }

  /** Returns the newest modification time of the files. */
  static String newest(List<Path> files) {
    List<Instant> times = new ArrayList<>();
    for (Path f : files) {
      try {
        times.add(Files.getLastModifiedTime(f).toInstant());
      } catch (IOException e) {
        throw new StageFailure("cannot read the time of " + f, e);
      }
    }
    return times.stream()
        .max(Instant::compareTo)
        .orElseThrow()
        .truncatedTo(ChronoUnit.SECONDS)
        .toString();
  }

  private static void link(ArrayNode links, String rel, String href, String type) {
    links.addObject().put("rel", rel).put("href", href).put("type", type);
  }

  private static void put(Path file, ObjectNode node) {
    AtomicFileWrite.write(
        file, part -> Files.writeString(part, JSON.writeValueAsString(node) + "\n"));
  }
}
