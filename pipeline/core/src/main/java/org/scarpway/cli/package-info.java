/** The command line: commands, options, exit codes. No logic of its own. */
package org.scarpway.cli;
