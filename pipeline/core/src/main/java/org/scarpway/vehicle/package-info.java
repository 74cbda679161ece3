/**
 * A vehicle or a walker on the ground: which headings each cell allows, which limit binds, how fast
 * and at what energy it is crossed.
 */
package org.scarpway.vehicle;
