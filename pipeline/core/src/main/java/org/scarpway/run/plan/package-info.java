/** The plan of a run: its stages and the resources that they need. */
package org.scarpway.run.plan;
