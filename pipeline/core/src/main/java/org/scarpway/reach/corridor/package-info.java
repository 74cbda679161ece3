/**
 * Routes from stop to stop: the order of visits, the corridor of ways that cost little more than
 * the best one, its centreline driven as a vehicle of a turning radius drives it, alternatives and
 * trade-offs.
 */
package org.scarpway.reach.corridor;
