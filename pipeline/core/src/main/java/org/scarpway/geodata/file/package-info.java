/**
 * Checks on user-supplied files before they are parsed, and atomic writing of products: to a
 * temporary file first, then renamed.
 */
package org.scarpway.geodata.file;
