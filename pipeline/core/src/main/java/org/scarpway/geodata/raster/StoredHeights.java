package org.scarpway.geodata.raster;

/**
 * Turns stored numbers into heights: stored * scale + offset - subtract in double precision, then
 * float32. No height (NaN) is made of NaN, of the nodata value, and of any magnitude from 1e30 up:
 * infinities and the special values at the end of the float32 range, which formats use for several
 * kinds of missing cell while naming one only.
 */
record StoredHeights(
    boolean hasNodata, double nodata, double scale, double offset, double subtract) {
  private static final double NO_HEIGHT = 1e30;

  static StoredHeights of(RasterHeader h, double subtract) {
    boolean has = h.nodata() != null && !Double.isNaN(h.nodata());
    double tag = has ? h.nodata() : 0;
    // A nodata tag is decimal text; the cells hold what float32 makes of it.
    double nodata = h.dataType().equals("Float32") ? Double.valueOf(tag).floatValue() : tag;
    return new StoredHeights(has, nodata, h.scale(), h.offset(), subtract);
  }

  /** Fills {@code count} heights of {@code out} from index {@code at} on. */
  void fill(double[] stored, int count, float[] out, int at) {
    for (int i = 0; i < count; i++) {
      double v = stored[i];
      boolean none = !(Math.abs(v) < NO_HEIGHT) || (hasNodata && v == nodata);
      out[at + i] = none ? Float.NaN : (float) (v * scale + offset - subtract);
    }
  }
}
