/**
 * Reuse of finished products: keys of what they were made from, digests, records, the store shared
 * by jobs, and the lock of an output folder.
 */
package org.scarpway.run.store;
