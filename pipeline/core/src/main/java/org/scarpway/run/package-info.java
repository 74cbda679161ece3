/**
 * Wires the stages: order, reuse of finished work, products written whole or not at all,
 * provenance. Rooms, each knowing only those before it: {@code product} (files of a stage), {@code
 * store} (keys, records and reuse), {@code ground} (the ground of an open job), {@code unit} (the
 * stages as tasks), {@code plan}, {@code progress}, {@code closing} (report, provenance, summary).
 * The classes beside them run jobs.
 */
package org.scarpway.run;
