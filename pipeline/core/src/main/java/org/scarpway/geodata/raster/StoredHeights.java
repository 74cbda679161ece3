package org.scarpway.geodata.raster;

/**
 * Converts stored values to heights: stored * scale + offset - subtract in double precision, then
 * float32. The result is NaN for NaN, for the nodata value, and for any magnitude of 1e30 or more:
 * infinities and the special values at the end of the float32 range, which formats use for several
 * kinds of missing cell while declaring only one.
 */
record StoredHeights(
    boolean hasNodata, double nodata, double scale, double offset, double subtract) {
  private static final double NO_HEIGHT = 1e30;

  static StoredHeights of(RasterHeader h, double subtract) {
    boolean has = h.nodata() != null && !Double.isNaN(h.nodata());
    double tag = has ? h.nodata() : 0;
    // The nodata tag is decimal text; the cells hold that value rounded to float32.
    double nodata = h.dataType().equals("Float32") ? Double.valueOf(tag).floatValue() : tag;
    return new StoredHeights(has, nodata, h.scale(), h.offset(), subtract);
  }

  /** Converts {@code count} values into {@code out} from index {@code at} on. */
  void fill(double[] stored, int count, float[] out, int at) {
    for (int i = 0; i < count; i++) {
      double v = stored[i];
      boolean none = !(Math.abs(v) < NO_HEIGHT) || (hasNodata && v == nodata);
      out[at + i] = none ? Float.NaN : (float) (v * scale + offset - subtract);
    }
  }
}
