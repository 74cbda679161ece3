/** Which candidate site gives the most reach: figures per candidate, ranking and its stability. */
package org.scarpway.site;
