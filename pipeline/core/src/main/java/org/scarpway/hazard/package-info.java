/**
 * What may stop or harm a vehicle and is not slope alone: rocks, keep-out areas, margins, gaps too
 * narrow and pockets without room to turn. Gives a hazard from 0 to 1 with its causes.
 */
package org.scarpway.hazard;
