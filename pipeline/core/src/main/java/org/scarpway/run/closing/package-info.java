/** What is written when the stages are done: report, run record, provenance, catalogue, summary. */
package org.scarpway.run.closing;
