/** Grades, curves and legs of a route as surveyors list them. */
package org.scarpway.reach.survey;
