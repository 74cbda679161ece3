package org.scarpway.reach.survey;

import org.scarpway.reach.question.CorridorResult.ProfilePoint;

/**
 * A place on a route by which a crew drives.
 *
 * @param leg number of the leg, from 0
 * @param vertex index of the vertex in the centreline
 * @param name of the stop there, words on a narrow place, or empty
 * @param at the vertex
 * @param timeS time since departure on arrival, stays before it included (s)
 * @param legM surface length since the leg began (m)
 * @param nextM surface length to the next waypoint of the leg (m); NaN at its end
 * @param gridDeg direction to the next waypoint, clockwise from grid north, [0, 360); NaN at its
 *     end
 * @param speedMs mean speed to the next waypoint (m/s); NaN at its end
 */
public record Waypoint(
    int leg,
    int vertex,
    String name,
    ProfilePoint at,
    double timeS,
    double legM,
    double nextM,
    double gridDeg,
    double speedMs) {}
