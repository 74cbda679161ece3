/** Progress reports during a run, for people and for schedulers. */
package org.scarpway.run.progress;
