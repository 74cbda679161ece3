package org.scarpway.run.replan;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.question.ReplanResult.StopLeft;
import org.scarpway.reach.question.ReplanResult.TurnBack;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.report.ReplanAnswer;

/**
 * Writes answer.json: the answer for programs, as replan.schema.json describes it. Amounts are in
 * SI units and not rounded; what is not known, or not limited, is null.
 */
final class ReplanJson {
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final PlaceFrame frame;

  private ReplanJson(PlaceFrame frame) {
    this.frame = frame;
  }

  static void write(
      Path file,
      ReplanResult r,
      List<String> lost,
      String limitsNotResolved,
      Collection<String> warnings,
      PlaceFrame frame) {
    ObjectNode all = new ReplanJson(frame).answer(r);
    ArrayNode ground = all.putArray("lost_ground");
    lost.forEach(ground::add);
    all.put("limits_not_resolved", limitsNotResolved);
    ArrayNode told = all.putArray("warnings");
    warnings.forEach(told::add);
    r.warnings().forEach(told::add);
    all.put("caution", ReplanAnswer.CAUTION);
    AtomicFileWrite.write(
        file,
        part ->
            Files.writeString(part, JSON.writeValueAsString(all) + "\n", StandardCharsets.UTF_8));
  }

  private ObjectNode answer(ReplanResult r) {
    ObjectNode all = JSON.createObjectNode();
    all.put("question", r.request().question().name());
    all.put("vehicle", r.vehicle());
    all.put("base", r.request().question().baseName());
    all.put(
        "home_rule",
        r.request().question().home().name().toLowerCase(Locale.ROOT).replace('_', '-'));
    place(all.putObject("at"), r.request().xM(), r.request().yM());
    all.put("home", ReplanTables.state(r.state()));
    all.put("what_ends_it", r.end());
    ArrayNode lacking = all.putArray("rule_short");
    for (Shortfall s : r.ruleShort()) {
      ObjectNode o = lacking.addObject();
      o.put("of", s.of().label());
      number(o, "needed", s.needed());
      number(o, "may_be_used", s.planned());
    }
    ArrayNode sentences = all.putArray("sentences");
    ReplanAnswer.sentences(r, frame::ownText).forEach(sentences::add);
    all.put("drive_alone", r.driveAlone());
    trip(all, "way_home", r.home());
    ArrayNode stops = all.putArray("stops");
    r.stops().forEach(s -> stop(stops.addObject(), s));
    turn(all, r.turnBack(), r.wholePlanFits());
    return all;
  }

  private void stop(ObjectNode o, StopLeft s) {
    o.put("name", s.stop().name());
    place(o, s.stop().xM(), s.stop().yM());
    o.put("stay_s", s.stop().stayS());
    o.put("alone", ReplanTables.state(s.state()));
    o.put("what_ends_it", s.end());
    number(o, "alone_arrive_s", s.timeS());
    trip(o, "alone_trip", s.home());
    o.put("in_order", s.inOrder());
    number(o, "in_order_arrive_s", s.arriveS());
  }

  private void turn(ObjectNode all, TurnBack t, boolean whole) {
    if (t == null) {
      all.putNull("turn_back");
      return;
    }
    ObjectNode o = all.putObject("turn_back");
    o.put("whole_plan_fits", whole);
    place(o, t.xM(), t.yM());
    number(o, "turn_by_s", t.timeS());
    number(o, "distance_m", t.distanceM());
    number(o, "energy_j", t.energyJ());
    o.put("after", t.from());
    o.put("before", t.to());
    number(o, "stay_s", t.stayS());
    o.put("because", t.end());
    trip(o, "way_home", t.home());
  }

  private static void trip(ObjectNode at, String key, Homeward h) {
    if (h == null) {
      at.putNull(key);
      return;
    }
    ObjectNode o = at.putObject(key);
    number(o, "time_s", h.timeS());
    number(o, "energy_j", h.energyJ());
    number(o, "distance_m", h.distanceM());
    amounts(o.putArray("amounts"), h.amounts());
  }

  private static void amounts(ArrayNode all, List<Amount> amounts) {
    for (Amount a : amounts) {
      ObjectNode o = all.addObject();
      o.put("of", a.of().label());
      number(o, "left", a.now());
      number(o, "reserve", a.reserve());
      number(o, "needed", a.needed());
      number(o, "spare", a.spare());
    }
  }

  private void place(ObjectNode o, double xM, double yM) {
    double[] own = frame.toRaster(xM, yM);
    o.put("x", own[0]);
    o.put("y", own[1]);
  }

  private static void number(ObjectNode o, String key, double value) {
    if (Double.isFinite(value)) {
      o.put(key, value);
    } else {
      o.putNull(key);
    }
  }
}
