/** Lists the grades, curves and legs of a route by the classes of route reconnaissance. */
package org.scarpway.reach.survey;
