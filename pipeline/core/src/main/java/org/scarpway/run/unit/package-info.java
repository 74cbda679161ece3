/**
 * Every stage of a job as a task with an id, a key, a computation and its products, and the
 * dependency graph of the stages.
 */
package org.scarpway.run.unit;
