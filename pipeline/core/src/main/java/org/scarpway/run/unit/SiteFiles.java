package org.scarpway.run.unit;

import java.nio.file.Path;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.site.SiteGround;

/** The layers on which sites are compared, from the finished rasters of earlier stages. */
final class SiteFiles implements SiteGround {
  private final GridSpec spec;
  private RasterRows<float[]> slopeDeg;
  private RasterRows<float[]> hazard01;
  private RasterRows<byte[]> cls;

  SiteFiles(GridSpec spec, Path terrain, Path hazard, Path mobility) {
    this.spec = spec;
    boolean all = false;
    try {
      slopeDeg = RasterRows.open(terrain.resolve("slope_deg.tif"), CellKind.FLOAT32);
      hazard01 = RasterRows.open(hazard.resolve("hazard.tif"), CellKind.FLOAT32);
      cls = RasterRows.open(mobility.resolve("class.tif"), CellKind.UINT8);
      all = true;
    } finally {
      if (!all) {
        close();
      }
    }
  }

  @Override
  public GridSpec spec() {
    return spec;
  }

  @Override
  public void readSlopeDeg(int row, float[] into) {
    slopeDeg.read(row, 1, into);
  }

  @Override
  public void readHazard01(int row, float[] into) {
    hazard01.read(row, 1, into);
  }

  @Override
  public void readClass(int row, byte[] into) {
    cls.read(row, 1, into);
  }

  @Override
  public void close() {
    for (RasterRows<?> file : new RasterRows<?>[] {slopeDeg, hazard01, cls}) {
      if (file != null) {
        file.close();
      }
    }
  }
}
