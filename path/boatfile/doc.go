// Package boatfile reads the boat file: YAML, units, defaults, and errors that point at line and column.
package boatfile
