package org.scarpway.geodata.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.stage.UserError;

/** Labels whose cells lie in a file beside them. */
class PartnersTest {
  @TempDir Path dir;
  private Path folder;
  private Path outside;

  @BeforeEach
  void write() throws IOException {
    folder = Files.createDirectories(dir.resolve("in"));
    outside = Files.write(dir.resolve("outside.img"), new byte[4 * 4 * 2]);
  }

  private Path label(String partner) throws IOException {
    return Files.writeString(
        folder.resolve("site.lbl"),
        """
        Object = IsisCube
          Object = Core
            ^Core = %s
            StartByte = 1
            Format = BandSequential
            Group = Dimensions
              Samples = 4
              Lines = 4
              Bands = 1
            End_Group
            Group = Pixels
              Type = SignedWord
              ByteOrder = Lsb
              Base = 0.0
              Multiplier = 1.0
            End_Group
          End_Object
          Group = Mapping
            ProjectionName = Equirectangular
            TargetName = Moon
            EquatorialRadius = 1737400.0 <meters>
            PolarRadius = 1737400.0 <meters>
            LatitudeType = Planetocentric
            LongitudeDirection = PositiveEast
            LongitudeDomain = 180
            CenterLongitude = 0.0
            CenterLatitude = 0.0
            UpperLeftCornerX = 0.0
            UpperLeftCornerY = 0.0
            PixelResolution = 10.0
            Scale = 3032.3
          End_Group
        End_Object
        End
        """
            .formatted(partner));
  }

  @ParameterizedTest
  @ValueSource(strings = {"site.img", "cells.img", "CELLS.IMG", "a b.cub"})
  void cellsOfAnotherFolderAreNotRead(String partner) throws IOException {
    Path file = label("'" + partner + "'");
    Path cells = folder.resolve(partner);
    Files.copy(outside, cells);
    assertEquals(4, RasterIos.gdal().header(file).rows(), "a true partner is read");
    Path kept = Files.move(cells, folder.resolve("kept"));
    Files.createSymbolicLink(cells, kept);
    assertEquals(4, RasterIos.gdal().header(label("'" + partner + "'")).rows());
    for (Path target : List.of(outside, Path.of("/dev/zero"), dir.resolve("none"))) {
      Files.delete(cells);
      Files.createSymbolicLink(cells, target);
      Path again = label("'" + partner + "'");
      Files.setLastModifiedTime(
          again, java.nio.file.attribute.FileTime.fromMillis(target.hashCode()));
      UserError e = assertThrows(UserError.class, () -> RasterIos.gdal().header(again));
      assertTrue(
          e.getMessage().contains(partner + " that is no file of its folder"), e.getMessage());
    }
  }

  /** What has nothing to do with the raster may be a link. */
  @Test
  void otherLinksInTheFolderDoNotMatter() throws IOException {
    Path file = label("cells.img");
    Files.copy(outside, folder.resolve("cells.img"));
    Files.createSymbolicLink(folder.resolve("photo.png"), outside);
    Files.createSymbolicLink(folder.resolve("archive"), dir);
    assertEquals(4, RasterIos.gdal().header(file).rows());
  }

  @Test
  void theMapOfATextGridIsNotReadThroughALink() throws IOException {
    Path grid =
        Files.writeString(
            folder.resolve("g.asc"),
            "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3 4\n");
    Files.createSymbolicLink(folder.resolve("g.prj"), outside);
    for (RasterIo io : List.of(RasterIos.gdal(), RasterIos.pureJava())) {
      assertThrows(UserError.class, () -> io.header(grid));
    }
  }
}
