// Package chambers gives chambers and perforated tubes as pieces of a fourpole.Chain, each in two forms: Plane, a chain
// of plane-wave elements with near-field corrections, fast; and Modes, axisymmetric mode matching, for what is centred.
// Conventions are those of fourpole.
package chambers
