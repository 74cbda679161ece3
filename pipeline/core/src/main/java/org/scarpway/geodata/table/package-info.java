/** Writes tables as CSV (RFC 4180); text is written unchanged. */
package org.scarpway.geodata.table;
