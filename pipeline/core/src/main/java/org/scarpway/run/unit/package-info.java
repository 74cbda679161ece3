/**
 * Every stage of a job as a task with an id, a key, a computation and its products, and the graph
 * of which needs which.
 */
package org.scarpway.run.unit;
