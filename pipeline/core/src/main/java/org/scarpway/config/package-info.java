/**
 * Readers of job, vehicle, walker, soil, body and target files: YAML and CSV validated against JSON
 * Schemas, units and physical plausibility, and converted to the stages' own records.
 *
 * <p>Reads files under a size limit; writes nothing. All errors are collected and reported
 * together, one line per problem with file, line and column. Defaults are defined in the schemas
 * (resources schema/*.schema.json) and nowhere else. Does not open rasters or polygons.
 */
package org.scarpway.config;
