/**
 * The classes that every stage shares: user errors and stage failures, progress, a thread pool with
 * deterministic bands of rows, and arrays on the heap or in scratch files. No terrain, no file
 * formats.
 */
package org.scarpway.stage;
