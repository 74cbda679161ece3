/** What a run tells while it goes on, for people and for schedulers. */
package org.scarpway.run.progress;
