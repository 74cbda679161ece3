package org.scarpway.run.ground;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.scarpway.config.Job.SoilSettings;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.KeepOutCells;
import org.scarpway.run.product.KeepOutFile;
import org.scarpway.run.product.OverlayRaster;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.SoilMap;

/**
 * The job's soils on the cells of the elevation model, for any of its rows: classes of a raster,
 * then polygons over them; a later polygon replaces an earlier one in the cells that it covers
 * completely. Where a polygon covers part of a cell, both its soil and the soil underneath count.
 * Without a raster, ground outside all polygons keeps the soil of the vehicle's own file. If a
 * raster has no data, or a value without a class, anywhere in a cell, the soil of that cell is
 * unknown.
 */
public final class SoilLayer {
  private static final int MOST_TOLD = 10;
  private static final byte INSIDE = 1;
  private static final byte CROSSED = 2;

  private final GridSpec spec;
  private final SoilSettings settings;
  private final List<Soil> soils;
  private final OverlayRaster classes;
  private final Map<Integer, Byte> soilOf = new LinkedHashMap<>();
  private final List<KeepOutCells> areas = new ArrayList<>();
  private final Set<Float> unnamed = new TreeSet<>();

  private SoilLayer(
      GridSpec spec, PlaceFrame frame, SoilSettings settings, RasterIo io, List<String> warnings) {
    this.spec = spec;
    this.settings = settings;
    this.soils = soils(settings);
    this.classes =
        settings.raster() == null
            ? null
            : OverlayRaster.open(spec, frame, settings.raster(), io, new OneSoil());
    settings.classes().forEach(c -> soilOf.put(c.value(), index(c.soil())));
    for (SoilSettings.Area area : settings.areas()) {
      areas.add(
          new KeepOutCells(
              KeepOutFile.read(area.polygons(), frame, 0, "sets no soil", warnings),
              0,
              spec,
              area.polygons().toString()));
    }
  }

  /**
   * @param spec of the whole grid
   */
  static SoilLayer open(
      GridSpec spec, PlaceFrame frame, SoilSettings settings, RasterIo io, List<String> warnings) {
    return new SoilLayer(spec, frame, settings, io, warnings);
  }

  /** Returns each soil once, in the order of {@link SoilMap#soils}. */
  public static List<Soil> soils(SoilSettings settings) {
    Set<Soil> all = new LinkedHashSet<>();
    settings.classes().stream()
        .map(SoilSettings.SoilClass::soil)
        .filter(Objects::nonNull)
        .forEach(all::add);
    settings.areas().forEach(a -> all.add(a.soil()));
    return List.copyOf(all);
  }

  private byte index(Soil soil) {
    return soil == null ? 0 : (byte) (soils.indexOf(soil) + 1);
  }

  /** Returns the soils on some rows. */
  public SoilMap rows(int firstRow, int rows) {
    return window(firstRow, 0, rows, spec.cols());
  }

  /** Returns the soils on a window of the grid. */
  public SoilMap window(int firstRow, int firstCol, int rows, int cols) {
    ByteGrid soilAt = ByteGrid.empty(spec.part(firstRow, firstCol, rows, cols));
    if (classes != null) {
      byClass(classes.window(firstRow, firstCol, rows, cols), soilAt.values());
    }
    for (int i = 0; i < areas.size(); i++) {
      byte[] marks = new byte[soilAt.values().length];
      areas.get(i).mark(firstRow, firstCol, rows, cols, marks, INSIDE, CROSSED);
      lay(index(settings.areas().get(i).soil()), marks, soilAt.values());
    }
    return new SoilMap(soils, soilAt, settings.noData());
  }

  private void lay(byte soil, byte[] marks, byte[] soilAt) {
    byte unknown = SoilMap.unknownIndex(soils.size());
    byte several = SoilMap.severalIndex(soils.size());
    for (int cell = 0; cell < marks.length; cell++) {
      if (marks[cell] == INSIDE) {
        soilAt[cell] = soil;
      } else if (marks[cell] != 0 && soilAt[cell] != unknown && soilAt[cell] != soil) {
        soilAt[cell] = several;
      }
    }
  }

  private void byClass(FloatGrid indices, byte[] soilAt) {
    byte unknown = SoilMap.unknownIndex(soils.size());
    for (int cell = 0; cell < soilAt.length; cell++) {
      float index = indices.values()[cell];
      soilAt[cell] = Float.isNaN(index) ? unknown : (byte) index;
    }
  }

  /**
   * Maps each pixel to the index of its soil; where soils meet in a cell, to the index of several
   * soils.
   */
  private final class OneSoil implements OverlayRaster.Rule {
    private final byte several = SoilMap.severalIndex(soils.size());
    private int lastClass = Integer.MIN_VALUE;
    private byte lastSoil;

    @Override
    public float one(float pixel) {
      int whole = (int) pixel;
      if (whole != pixel || (whole != lastClass && !soilOf.containsKey(whole))) {
        if (unnamed.size() < MOST_TOLD) {
          unnamed.add(pixel);
        }
        return Float.NaN;
      }
      if (whole != lastClass) {
        lastClass = whole;
        lastSoil = soilOf.get(whole);
      }
      return lastSoil;
    }

    @Override
    public float both(float some, float other) {
      return some == other ? some : several;
    }
  }

  /** Returns warnings on the rows read so far, at most one line. */
  public List<String> notes() {
    return unnamed.isEmpty()
        ? List.of()
        : List.of(
            String.format(
                Locale.ROOT,
                "%s has values without a class under soils.classes (%s): nobody knows the soil"
                    + " there.",
                settings.raster().getFileName(),
                String.join(", ", unnamed.stream().map(SoilLayer::text).toList())));
  }

  private static String text(float value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : Float.toString(value);
  }
}
