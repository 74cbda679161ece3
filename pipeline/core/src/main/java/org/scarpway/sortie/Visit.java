package org.scarpway.sortie;

/**
 * One step of a plan: the drive to a place and the stop there.
 *
 * @param place place driven to, 0 for the base at the end
 * @param way which of the ways to it
 * @param restNights nights at the last place before it that allows one; chosen only where the crew
 *     cannot wait at the place itself
 */
public record Visit(int place, int way, int restNights) {}
