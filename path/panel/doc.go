// Package panel gives the transmission loss of build-ups, windows and openings, and the table of materials.
package panel
