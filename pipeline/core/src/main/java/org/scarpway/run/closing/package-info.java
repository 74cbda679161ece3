/**
 * The outputs written after the last stage: report, run record, provenance, catalogue and summary.
 */
package org.scarpway.run.closing;
