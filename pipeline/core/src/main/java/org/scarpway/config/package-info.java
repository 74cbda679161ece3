/**
 * Job, vehicle, walker and soil files: YAML checked against JSON Schemas, units and physical sense,
 * turned into the stages' own records.
 */
package org.scarpway.config;
