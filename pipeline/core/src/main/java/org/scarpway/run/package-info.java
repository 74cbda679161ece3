/**
 * Runs jobs: stage order, reuse of finished products, atomic output (complete or not at all) and
 * provenance. Its subpackages, each depending only on those before it: {@code product} (files of a
 * stage), {@code store} (keys, records and reuse), {@code ground} (the ground of an open job),
 * {@code unit} (the stages as tasks), {@code plan}, {@code progress}, {@code closing} (report,
 * provenance, summary), {@code replan} (the rest of a trip from where the crew is). The classes in
 * this package run jobs.
 */
package org.scarpway.run;
