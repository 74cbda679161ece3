/**
 * Begins ({@code scarpway new}): a job, a vehicle and a walker for an elevation model of which
 * nothing is known but the file, with a base on ground that the vehicle can leave.
 */
package org.scarpway.run.begin;
