package org.scarpway.geodata.crs;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;

/** Every system that a product can be in comes back as itself from a GeoTIFF, on both paths. */
class MapCrsOnDiskTest {
  private static final List<String> MAPS =
      List.of(
          "Polar_Stereographic\"],PARAMETER[\"latitude_of_origin\",-71]",
          "Polar_Stereographic\"],PARAMETER[\"latitude_of_origin\",90]",
          "Stereographic\"],PARAMETER[\"latitude_of_origin\",26],PARAMETER[\"central_meridian\",3]",
          "Oblique_Stereographic\"],PARAMETER[\"latitude_of_origin\",52]",
          "Transverse_Mercator\"],PARAMETER[\"central_meridian\",15]",
          "Equirectangular\"],PARAMETER[\"standard_parallel_1\",30]",
          "Mercator_2SP\"],PARAMETER[\"standard_parallel_1\",20]",
          "Lambert_Conformal_Conic_2SP\"],PARAMETER[\"standard_parallel_1\",30],"
              + "PARAMETER[\"standard_parallel_2\",50]",
          "Lambert_Conformal_Conic_1SP\"],PARAMETER[\"latitude_of_origin\",40]",
          "Albers_Conic_Equal_Area\"],PARAMETER[\"standard_parallel_1\",30],"
              + "PARAMETER[\"standard_parallel_2\",50]",
          "Lambert_Azimuthal_Equal_Area\"],PARAMETER[\"latitude_of_center\",40]",
          "Azimuthal_Equidistant\"],PARAMETER[\"latitude_of_center\",40]",
          "Sinusoidal\"],PARAMETER[\"longitude_of_center\",5]");

  @Test
  void everySystemSurvives() {
    List<MapCrs> all = new ArrayList<>();
    for (Body body : List.of(Body.MOON, Body.MARS, Body.EARTH)) {
      String base = CrsWriter.wkt(MapCrs.lonLat(body));
      all.add(CrsText.read(base).localAbout(30, -85));
      for (String map : MAPS) {
        String text = "PROJCS[\"x\"," + base + ",PROJECTION[\"" + map + ",UNIT[\"metre\",1]]";
        all.add(CrsText.read(text));
      }
    }
    all.add(MapCrs.local("egg", 250e3, 240e3, 30, -85));
    for (RasterIo io : List.of(RasterIos.gdal(), RasterIos.pureJava())) {
      for (MapCrs crs : all) {
        GridSpec grid = new GridSpec(3, 3, 1, 1, 0, 0, CrsWriter.wkt(crs));
        assertDoesNotThrow(
            () -> io.requireWritable(grid), io.name() + ": " + CrsWriter.projString(crs));
      }
    }
  }
}
