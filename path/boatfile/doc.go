// Package boatfile reads the boat file: YAML, units, defaults, and errors that point at line and
// column. Units with names (12 in, 6 kPa) exist only here and where results are printed.
package boatfile
