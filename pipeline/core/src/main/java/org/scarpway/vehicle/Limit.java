package org.scarpway.vehicle;

/**
 * Limits that can stop a vehicle or walker. The code is the value in {@code limit.tif}; 0 means
 * that no limit binds. Where there is no verdict, the code names the missing data.
 */
public enum Limit {
  VOID(1, "no elevation"),
  KEEP_OUT(2, "keep-out area"),
  CLIMB(3, "climb slope"),
  DESCEND(4, "descent slope"),
  SIDE(5, "side slope"),
  TIP(6, "static tip-over"),
  STEP(7, "step height"),
  CLEARANCE(8, "belly clearance"),
  APPROACH(9, "approach or departure angle"),
  ROCKS(10, "rocks"),
  TRACTION(11, "soil traction"),
  POWER(12, "drive power"),
  ROUGHNESS(13, "roughness"),
  ROOM(14, "gap too narrow or no room to turn"),
  UNRESOLVED(15, "not resolved by the cells"),
  ROCK_DATA(16, "no rock data"),
  SOIL_DATA(17, "no soil data"),
  SINKAGE(18, "wheel sinkage"),
  SIGHT(19, "stopping sight");

  private final int code;
  private final String label;

  Limit(int code, String label) {
    this.code = code;
    this.label = label;
  }

  public byte code() {
    return (byte) code;
  }

  public String label() {
    return label;
  }

  public static Limit ofCode(int code) {
    for (Limit l : values()) {
      if (l.code == code) {
        return l;
      }
    }
    throw new IllegalArgumentException("no limit has code " + code);
  }
}
