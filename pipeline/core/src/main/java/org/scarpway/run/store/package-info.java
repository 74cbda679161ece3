/**
 * When finished products may be taken again: keys of what they were made from, digests, records,
 * the store that jobs share, and the lock of an output folder.
 */
package org.scarpway.run.store;
