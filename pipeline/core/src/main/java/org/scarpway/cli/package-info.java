/** The command line: commands, options and exit codes, without logic of its own. */
package org.scarpway.cli;
