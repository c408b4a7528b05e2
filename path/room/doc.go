// Package room gives rooms and enclosures: direct and reverberant field, insertion loss, ventilation.
package room
