/**
 * Wires the stages: order, reuse of finished work, products written whole or not at all,
 * provenance.
 */
package org.scarpway.run;
