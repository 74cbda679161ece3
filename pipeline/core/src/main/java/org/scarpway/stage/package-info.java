/**
 * What every stage shares: how a user's mistake or a failed run is reported, progress, and work
 * spread over cores in a fixed order, values on the heap or beyond it. No terrain, no formats.
 */
package org.scarpway.stage;
