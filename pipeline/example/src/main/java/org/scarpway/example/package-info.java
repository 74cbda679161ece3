/** The engines of Scarpway in a program of one's own: no job file, no products, no report. */
package org.scarpway.example;
