package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.MissingData;
import org.scarpway.vehicle.ShownMobility;

/** The cautions that a reader must know before using a number of the report. */
final class Cautions {
  private Cautions() {}

  static List<String> of(Ground ground) {
    ReportData data = ground.data;
    GridSpec spec = ground.spec;
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    List<String> text = new ArrayList<>();
    text.add(
        "This is a planning aid computed from models of the ground and the vehicle. It is not"
            + " clearance to drive.");
    text.add(
        "The elevation model has cells of "
            + Figures.brief(cellM)
            + " m. Rocks, ledges and trenches smaller than about "
            + Figures.brief(2 * cellM)
            + " m cannot be seen in it."
            + (data.facts().smallestObstacle().isEmpty()
                ? ""
                : " " + data.facts().smallestObstacle()));
    if (!data.unanswered().isEmpty()) {
      text.add(
          "Not every question of the job was answered: "
              + String.join(", ", data.unanswered().keySet())
              + ". What is missing here was not found to be safe or out of reach.");
    }
    for (ShownMobility m : data.mobility()) {
      if (m.unresolved() != null) {
        text.add(m.vehicle().name() + ": " + m.unresolved().text());
      }
      m.notes().stream()
          .filter(MissingData::tellsAssumed)
          .map(n -> m.vehicle().name() + ": " + n)
          .forEach(text::add);
      String missing = MobilitySection.missing(m);
      if (missing != null) {
        text.add(missing);
      }
    }
    Double sigma = data.facts().verticalSigmaM();
    text.add(
        sigma == null
            ? "The height error of the elevation model was not stated, so its effect on slope and"
                + " class is unknown here."
            : "The elevation model was stated to have a height error of "
                + Figures.brief(sigma)
                + " m (one sigma). Limits are held against it with the job's confidence; P(no-go) says"
                + " how likely they are broken. Times, speeds and energies take the heights as"
                + " measured.");
    if (ground.groundM2 < ground.windowM2) {
      text.add(
          Figures.percent(ground.windowM2 - ground.groundM2, ground.windowM2)
              + " % of the window has no elevation. Nothing is claimed there.");
    }
    if (!data.reaches().isEmpty() || !data.sorties().isEmpty()) {
      text.add(
          "'Surely' and 'possibly' describe the model, not the drive: surely means that one path"
              + " was found in it that meets every budget and the home rule; possibly means that"
              + " each can be met alone while no such path was found: there may be none.");
    }
    text.add(
        "Mission flight rules, local codes and regulations, and the judgement of licensed or"
            + " qualified people take precedence over anything shown here.");
    return text;
  }
}
