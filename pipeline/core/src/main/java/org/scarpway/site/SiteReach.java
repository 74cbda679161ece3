package org.scarpway.site;

import java.util.List;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.site.SiteFigures.ReachedArea;

/**
 * What one answered question says of the site that it starts from.
 *
 * @param reached targets that are reached
 * @param narrowestM narrowest gap on the way home from one of them (m), NaN where none is known
 * @param lostPct largest share of the reach that is lost by closing one passage (%): 0 where there
 *     is another way past each, NaN where nothing is reached
 */
public record SiteReach(ReachedArea area, List<Target> reached, double narrowestM, double lostPct) {
  public SiteReach {
    reached = List.copyOf(reached);
  }
}
