// Package onboard answers about readings: which to take next and what to expect after fitting, and what was known before and after
// those of the file.
package onboard
