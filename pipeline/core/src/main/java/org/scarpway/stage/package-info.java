/**
 * What every stage shares: how a user's mistake or a failed run is reported, progress, and work
 * spread over cores in a fixed order. No terrain, no files.
 */
package org.scarpway.stage;
