package org.scarpway.site;

import java.util.List;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.site.SiteFigures.ReachedArea;

/**
 * Summary of one reach result for the site that it starts from.
 *
 * @param area reached area
 * @param reached targets that are reached
 * @param narrowestM bottleneck width (m): the narrowest gap on the routes home from them, NaN if
 *     unknown
 * @param lostPct largest share (%) of the reach lost by closing one passage: 0 if every passage has
 *     an alternative, NaN if nothing is reached
 */
public record SiteReach(ReachedArea area, List<Target> reached, double narrowestM, double lostPct) {
  public SiteReach {
    reached = List.copyOf(reached);
  }
}
