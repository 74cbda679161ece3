/** Tables as CSV (RFC 4180), without formulas that a spreadsheet would run. */
package org.scarpway.geodata.table;
