/** Requests and results of the reach and corridor stages: plain values without computation. */
package org.scarpway.reach.question;
