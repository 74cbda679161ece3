/** What a run is about to do and what it will take. */
package org.scarpway.run.plan;
