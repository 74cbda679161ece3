package org.scarpway.geodata;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.IntGrid;
import org.scarpway.stage.UserError;

/** Raster files without native code: GeoTIFF and text grids in, tiled GeoTIFF out. */
final class JavaRasterIo extends FileRasterIo {

  @Override
  public String name() {
    return "pure Java";
  }

  @Override
  public List<String> reduced() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "rasters are written as tiled GeoTIFF without overviews, not as cloud-optimised ones");
    lines.add(
        "only GeoTIFF and text grids are read; ISIS2, ISIS3, PDS, PDS4, VICAR, USGSDEM, DTED, SRTMHGT,"
            + " EHdr, ENVI, HFA and JPEG 2000 files, and GeoTIFF with mask bands, need GDAL");
    GdalRuntime.problem().ifPresent(why -> lines.add("GDAL is not used: " + why));
    lines.add("to install GDAL: " + RasterIos.INSTALL);
    return List.copyOf(lines);
  }

  @Override
  OpenRaster open(Path file) {
    RasterFiles.requireSelfContained(file);
    if (TiffDirectory.isTiff(file)) {
      return GeoTiffFile.open(file);
    }
    if (AsciiGridFile.isAsciiGrid(file)) {
      return AsciiGridFile.open(file);
    }
    throw UserError.of(
        file.toString(),
        "is no raster that the pure Java path reads",
        "a GeoTIFF or a text grid",
        "convert it, or install GDAL: " + RasterIos.INSTALL);
  }

  @Override
  public void write(Path file, FloatGrid grid, BandInfo info) {
    float[] values = grid.values();
    write(
        file,
        grid.spec(),
        new Cells(4, 3, "nan", (i, into, at) -> four(Float.floatToRawIntBits(values[i]), into, at)),
        info);
  }

  @Override
  public void write(Path file, ByteGrid grid, BandInfo info) {
    byte[] values = grid.values();
    write(file, grid.spec(), new Cells(1, 1, "0", (i, into, at) -> into[at] = values[i]), info);
  }

  @Override
  public void write(Path file, IntGrid grid, BandInfo info) {
    int[] values = grid.values();
    write(file, grid.spec(), new Cells(4, 1, "", (i, into, at) -> four(values[i], into, at)), info);
  }

  private void write(Path file, GridSpec spec, Cells cells, BandInfo info) {
    requireWritable(spec);
    files.forget(file);
    RasterFiles.writeWhole(
        file,
        part -> {
          GeoTiffWriter.write(part, spec, cells, info);
          TiffDirectory.requireWritten(part, spec);
        });
  }

  @Override
  public void requireWritable(GridSpec spec) {
    try {
      GeoKeyCrs.keys(spec.crsWkt());
    } catch (IllegalArgumentException e) {
      throw UserError.of(
          "coordinate reference system",
          "the pure Java path cannot write it (" + e.getMessage() + ")",
          "a projected system in metres that GeoTIFF keys can hold",
          "install GDAL: " + RasterIos.INSTALL);
    }
  }

  private interface Put {
    void put(int index, byte[] into, int at);
  }

  private record Cells(int bytesPerCell, int sampleFormat, String nodata, Put put)
      implements GeoTiffWriter.Cells {
    @Override
    public void put(int index, byte[] into, int at) {
      put.put(index, into, at);
    }
  }

  private static void four(int bits, byte[] into, int at) {
    into[at] = (byte) bits;
    into[at + 1] = (byte) (bits >>> 8);
    into[at + 2] = (byte) (bits >>> 16);
    into[at + 3] = (byte) (bits >>> 24);
  }
}
