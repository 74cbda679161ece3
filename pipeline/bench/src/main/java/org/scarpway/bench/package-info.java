/** Benchmarks: one class per question, run by hand; results are kept in reports/benchmarks.md. */
package org.scarpway.bench;
