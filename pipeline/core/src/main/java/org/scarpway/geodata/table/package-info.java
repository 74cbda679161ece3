/**
 * Writes tables as CSV (RFC 4180). Text is written unchanged: names allowed in a job cannot begin
 * like a spreadsheet formula.
 */
package org.scarpway.geodata.table;
