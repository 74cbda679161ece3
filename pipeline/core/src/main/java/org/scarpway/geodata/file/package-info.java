/**
 * What every file from outside must be before it is parsed, and how files of ours are written:
 * aside first, then moved into place.
 */
package org.scarpway.geodata.file;
