/**
 * Lists the legs, grades and curves of a route by the classes of route reconnaissance, and its
 * waypoints.
 */
package org.scarpway.reach.survey;
