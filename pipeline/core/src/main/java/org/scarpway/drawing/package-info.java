/**
 * Drawings in millimetres of paper, written as vector graphics or as pixels: the same lines,
 * pictures and words in both. It knows nothing of maps.
 */
package org.scarpway.drawing;
