package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job.TargetRow;
import org.scarpway.stage.UserError;

class TargetsReaderTest {
  @TempDir Path dir;

  private Path write(String text) throws Exception {
    return Files.writeString(dir.resolve("t.csv"), text);
  }

  private String refusal(String text) throws Exception {
    Path file = write(text);
    String line = assertThrows(UserError.class, () -> TargetsReader.read(file)).getMessage();
    return line.replace(dir + "/", "");
  }

  @Test
  void columnsMayComeInAnyOrderAndWindowsLineEndsAreFine() throws Exception {
    List<TargetRow> rows =
        TargetsReader.read(
            write("\uFEFFlat,name,lon\r\n-88.5,\"South rim\",12\r\n\r\n-89,Qu'art.1,-170\r\n"));
    assertEquals(2, rows.size());
    assertTrue(rows.get(0).place().lonLat());
    assertEquals(12, rows.get(0).place().x());
    assertEquals(-88.5, rows.get(0).place().y());
    assertEquals(1, rows.get(0).weight());
    assertEquals(0, rows.get(0).stayS());
    assertEquals(dir + "/t.csv:4:1", rows.get(1).place().where());
  }

  @Test
  void theLastLineNeedsNoEnd() throws Exception {
    assertEquals(
        dir + "/t.csv:2:1", TargetsReader.read(write("name,x,y\na,1,2")).get(0).place().where());
    assertTrue(refusal("name,x,y\na,1,2\nb,1").startsWith("t.csv:3:1: a row of 2 cells"));
  }

  @Test
  void everyBadRowIsTold() throws Exception {
    String text = refusal("name,x,y\na,one,2\nb,1,two\n,1,2\n" + "c".repeat(65) + ",1,2\n");
    assertEquals(4, text.lines().count(), text);
  }

  @Test
  void hostileTablesAreRefused() throws Exception {
    assertTrue(refusal("name,x,y\n\"a,1,2\n").startsWith("t.csv"));
    assertTrue(refusal("name,x,y\n\"a\"b,1,2\n").contains("not valid CSV"));
    assertTrue(refusal("name,x,y\n" + "z".repeat(1_000_000) + ",1,2").length() < 300);
    assertTrue(refusal("name,x,y\n" + ",".repeat(1_000_000)).contains("a row of 1000001 cells"));
    assertTrue(refusal("x".repeat(17 << 20)).contains("the file is too large"));
    assertTrue(refusal("name,x,y\n\"a\nb\",1,2\n").contains("name 'a?b'"));
    assertTrue(refusal("\0\0").contains("control character"));
    StringBuilder many = new StringBuilder("name,x,y\n");
    for (int i = 0; i <= TargetsReader.MAX_ROWS; i++) {
      many.append(i).append(",1,2\n");
    }
    assertTrue(refusal(many.toString()).contains("too many targets"));
  }

  @Test
  void geographicRangesHold() throws Exception {
    assertTrue(refusal("name,lon,lat\na,361,0\n").contains("lon is '361'; expected a number in"));
    assertTrue(refusal("name,lon,lat\na,0,90.001\n").contains("lat is '90.001'"));
  }
}
