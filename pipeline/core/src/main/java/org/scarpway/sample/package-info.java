/**
 * The invented demo scenario: terrain, stops and keep-out ground made from a seed. Not used by any
 * other package.
 */
package org.scarpway.sample;
