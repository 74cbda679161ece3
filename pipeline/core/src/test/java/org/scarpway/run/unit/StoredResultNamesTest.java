package org.scarpway.run.unit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Field;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Results are stored beside products under the names of their record components, and a stage whose
 * key is unchanged reads what an earlier version of the program stored. So the names belong to the
 * version number of the stage: whoever changes one raises the other.
 */
class StoredResultNamesTest {
  private static void collect(Type type, Set<String> lines) {
    if (type instanceof ParameterizedType p) {
      for (Type t : p.getActualTypeArguments()) {
        collect(t, lines);
      }
    } else if (type instanceof Class<?> c && c.isEnum()) {
      List<String> names = new ArrayList<>();
      for (Object constant : c.getEnumConstants()) {
        names.add(((Enum<?>) constant).name());
      }
      lines.add(String.join(" ", names));
    } else if (type instanceof Class<?> c && c.isRecord()) {
      List<String> names = new ArrayList<>();
      for (RecordComponent part : c.getRecordComponents()) {
        names.add(part.getName());
      }
      if (lines.add(String.join(" ", names))) {
        for (RecordComponent part : c.getRecordComponents()) {
          collect(part.getGenericType(), lines);
        }
      }
    }
  }

  /**
   * @param since version since which the stage stores these names
   */
  private static void assertNames(Class<?> task, int since, Type stored, String expected)
      throws Exception {
    Set<String> lines = new LinkedHashSet<>();
    collect(stored, lines);
    assertEquals(
        expected,
        String.join("\n", lines) + "\n",
        "names in stored results changed: raise VERSION of " + task.getSimpleName());
    Field version = task.getDeclaredField("VERSION");
    version.setAccessible(true);
    assertTrue(version.getInt(null) >= since, "VERSION of " + task.getSimpleName());
  }

  @Test
  void namesChangeOnlyWithTheVersionOfTheStage() throws Exception {
    assertNames(
        CorridorTask.class,
        11,
        CorridorProducts.Rest.class,
        """
        bestCost visits order centreline turning pinchPoints besideM alternatives \
        tradeOffs beyond warnings
        name xM yM timeS energyJ distanceM stayS stayJ
        proven atLeast gapPct
        distanceM xM yM heightM pitchDeg rollDeg speedMs timeS energyJ margin01 \
        straightMs
        radiusM extraPct tooTight
        xM yM
        xM yM widthM distanceM behindM2
        rank timeS energyJ mostJ distanceM excessPct sharedPct line
        timeS energyJ mostJ hazardM distanceM weights line
        """);
    assertNames(
        SortieTask.class,
        1,
        SortieProducts.Rest.class,
        """
        surelyM2 possiblyM2 edgeM warnings plan
        found value wholeValue proven mostMorePct supply steps stops ways more notes
        days daySpanS perDayS driveS walks batteryJ keptJ lifeS keptS
        day fromS toS act from to xM yM distanceM energyJ batteryJ leastJ lifeS walks \
        binds
        DRIVE WAIT STOP WALK RESERVE NIGHT REST
        name xM yM value must day arriveS staysS walks why
        day from to distanceM timeS energyJ line
        xM yM
        """);
    assertNames(
        ReachTask.class,
        23,
        ReachRest.class,
        """
        bandAreasM2 byBudget targets passages summary drivenAgain warnings
        quantity budget reservePct surelyM2 possiblyM2
        TIME_S ENERGY_J DISTANCE_M
        target reached outTimeS homeTimeS totalTimeS totalEnergyJ distanceM timeSpareS \
        energySpareJ lifeSpareS end whyNot
        name xM yM weight stayS walkCount
        shortfalls nearest crossing enough stayS refugeHelps rescue
        of needed planned by
        TIME ENERGY DISTANCE LIFE_SUPPORT WALK WALK_LENGTH WALK_ENERGY RESCUER_LIFE RESCUER_ENERGY \
        RESCUER_DISTANCE
        xM yM distanceM azimuthDeg
        xM yM lengthM limits cells
        supply of whole now by
        xM yM widthM behindM2 behindPct targets
        name value unit
        name xM yM timeS energyJ distanceM leftPct leftOf leftAtS leftXM leftYM phase \
        waysHome broken
        """);
    assertNames(
        SiteTask.class,
        10,
        SiteTask.Stored.class,
        """
        scores stability spread notShown
        figures rank score01 onParetoFront
        name xM yM values areas voidPct
        question surelyM2 possiblyM2
        site what draws firstPct meanRank bestRank worstRank
        site figure known mean sigma least most
        MEAN_SLOPE STEEP_SLOPE MEAN_HAZARD NO_HAZARD REACH_AREA TARGETS TARGET_WEIGHT \
        NO_GO_DISTANCE GAP_WIDTH SINGLE_GAP_SHARE
        """);
    assertNames(
        SiteRealisations.class,
        1,
        SiteRealisations.Kept.class,
        """
        candidates
        name xM yM values areas voidPct
        question surelyM2 possiblyM2
        """);
    assertNames(
        TerrainTask.class,
        8,
        TerrainTask.Rest.class,
        """
        extrapolation lengths notes
        law roughness step
        hurst hurstLow hurstHigh deviationAt1M r2 points hurstError
        fromM toM factor fitted
        slopeM roughness step convexityM breakM
        shortestM givenM
        """);
    assertNames(
        MobilityTask.class,
        19,
        MobilityStrips.Rest.class,
        """
        unresolved slow cells notes
        limits sharePct usedPct text
        VOID KEEP_OUT CLIMB DESCEND SIDE TIP STEP CLEARANCE APPROACH ROCKS TRACTION \
        POWER ROUGHNESS ROOM UNRESOLVED ROCK_DATA SOIL_DATA SINKAGE SIGHT
        cells byCause
        cellAreaM2 counts
        """);
    String places =
        """
        places
        name xM yM horizonDeg edge path meanShare aboveShare longestBelowH atLeast
        azimuthDeg elevationDeg
        """;
    assertNames(LightTask.class, 1, LightPlaces.class, places);
    assertNames(ContactTask.class, 1, LightPlaces.class, places);
    assertNames(
        HazardTask.class,
        7,
        HazardTask.Notes.class,
        """
        notes
        """);
    assertNames(
        SheetTask.class,
        6,
        KeptHomeAlong.Kept.class,
        """
        limited at drivenAgain
        TIME LIFE_SUPPORT ENERGY DISTANCE
        sure latestS end atBase way
        home stoppedS line curvesS
        timeS energyJ distanceM amounts
        of now reserve needed
        xM yM
        name xM yM timeS energyJ distanceM leftPct leftOf leftAtS leftXM leftYM phase \
        waysHome broken
        """);
  }
}
