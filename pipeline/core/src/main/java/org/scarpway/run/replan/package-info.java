/**
 * Answers a crew underway ({@code scarpway replan}): reads where it stands and what it has left,
 * makes the ground of the job ready, with ground that was lost since, asks {@code reach} and writes
 * the products of {@code replan/}. Finished stages of the job's folder are used and never changed;
 * what is not finished, or differs because of lost ground, is computed for the answer alone.
 */
package org.scarpway.run.replan;
