/**
 * Job, vehicle, walker, soil, body and target files: YAML and CSV checked against JSON Schemas,
 * units and physical sense, turned into the stages' own records.
 *
 * <p>Reads files under a size limit; writes nothing. Everything that is wrong is collected and told
 * at once, one line per problem with file, line and column. Defaults live in the schemas (resources
 * schema/*.schema.json), nowhere else. Does not open rasters or polygons.
 */
package org.scarpway.config;
