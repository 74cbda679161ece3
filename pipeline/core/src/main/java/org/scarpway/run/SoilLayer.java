package org.scarpway.run;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import org.scarpway.config.Job.SoilSettings;
import org.scarpway.geodata.RasterIo;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.KeepOut;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.SoilMap;

/**
 * The job's soils on the cells of the elevation model: classes of a raster, then polygons over
 * them, later ones over earlier ones. Ground that neither covers keeps the soil of the vehicle's
 * own file.
 */
final class SoilLayer {
  private SoilLayer() {}

  static SoilMap onto(GridSpec spec, SoilSettings settings, RasterIo io, List<String> warnings) {
    Map<Soil, Byte> index = new LinkedHashMap<>();
    settings.classes().forEach(c -> number(index, c.soil()));
    settings.areas().forEach(a -> number(index, a.soil()));
    ByteGrid soilAt = ByteGrid.empty(spec);
    if (settings.raster() != null) {
      classes(spec, settings, io, index, soilAt.values(), warnings);
    }
    for (SoilSettings.Area area : settings.areas()) {
      byte[] inside = new byte[spec.cells()];
      var ground = KeepOut.area(KeepOutFile.read(area.polygons(), spec, warnings), 0);
      KeepOut.mark(ground, spec, inside, 1);
      byte soil = index.get(area.soil());
      for (int cell = 0; cell < inside.length; cell++) {
        if (inside[cell] != 0) {
          soilAt.values()[cell] = soil;
        }
      }
    }
    return new SoilMap(new ArrayList<>(index.keySet()), soilAt);
  }

  private static void number(Map<Soil, Byte> index, Soil soil) {
    index.putIfAbsent(soil, (byte) (index.size() + 1));
  }

  private static void classes(
      GridSpec spec,
      SoilSettings settings,
      RasterIo io,
      Map<Soil, Byte> index,
      byte[] soilAt,
      List<String> warnings) {
    Map<Integer, Byte> soilOf = new LinkedHashMap<>();
    settings.classes().forEach(c -> soilOf.put(c.value(), index.get(c.soil())));
    FloatGrid classes = OverlayRaster.onto(spec, settings.raster(), io);
    TreeSet<Float> unnamed = new TreeSet<>();
    int lastClass = Integer.MIN_VALUE;
    byte lastSoil = 0;
    for (int cell = 0; cell < soilAt.length; cell++) {
      float value = classes.values()[cell];
      int whole = (int) value;
      if (Float.isNaN(value)) {
        continue;
      }
      if (whole != value || (whole != lastClass && !soilOf.containsKey(whole))) {
        if (unnamed.size() < 10) {
          unnamed.add(value);
        }
        continue;
      }
      if (whole != lastClass) {
        lastClass = whole;
        lastSoil = soilOf.get(whole);
      }
      soilAt[cell] = lastSoil;
    }
    if (!unnamed.isEmpty()) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s has values without a class under soils.classes (%s): there the vehicle's own"
                  + " soil is taken.",
              settings.raster().getFileName(),
              String.join(", ", unnamed.stream().map(SoilLayer::text).toList())));
    }
  }

  private static String text(float value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : Float.toString(value);
  }
}
