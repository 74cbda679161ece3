/**
 * Plans sorties of several days: which stops a crew that lives in its vehicle makes, in which order
 * and on which days, for the most value, and the timetable of it. Reads no file and does not depend
 * on the job configuration: ways between places come in as seconds and joules ({@link
 * org.scarpway.sortie.Legs}), SI units throughout.
 *
 * <h2>Days</h2>
 *
 * <p>{@link org.scarpway.sortie.DayClock} is the only arithmetic of days; rings, search, timetable
 * and report use it. A trip begins on day 0 with its first hour. A day has so many hours for
 * driving and stays, of which so many for driving, and so many walks. What does not fit is done on
 * another day: driving is cut by a night, a stay with its walks is not. A night lasts to the first
 * hour of the next day, draws the load of a parked vehicle and then gives the night charge, up to a
 * full battery. A crew drives on each day as far as hours, battery and home rule allow, and stops
 * where the battery lasts the night; where it does not carry on, the crew rests another night.
 *
 * <p>That is never worse than resting by choice. Take any plan with the same stops in the same
 * order: at every moment the crew that drives on is as far or further, and were it to wait for the
 * other one, it would have drawn no more, since it used the same hours and charges an emptier
 * battery. Where the crew cannot wait at a stop (no camp, battery or home rule at its limit), the
 * search tries nights at the last place before it too.
 *
 * <h2>Home rules</h2>
 *
 * <p>From every stop the crew must be able to drive home by the end of the last day, straight or,
 * with nights at camps only, from camp to camp. Beyond that {@link org.scarpway.sortie.HomeRule} is
 * checked at the worst place of every piece of a leg at the end of the time spent there, after
 * every stay, and in the evening wherever a night is spent: from then on until the morning the time
 * of coming home does not change.
 *
 * <h2>Search</h2>
 *
 * <p>Labels (clock, hours driven, walks, energy) over sets of stops, of which those are kept that
 * no other makes superfluous ({@code LabelSearch}), and that can still become better than the best
 * known plan by an upper bound ({@code RelaxedTours}). The known plan comes from the same search
 * with few labels of each size. The number of labels ends the search, never a clock, so the result
 * does not depend on the machine; what it leaves open then bounds what any plan could bring.
 */
package org.scarpway.sortie;
