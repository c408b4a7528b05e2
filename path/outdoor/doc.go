// Package outdoor takes sound from a pipe's mouth through the open air: spreading, directivity of an
// unflanged pipe, air absorption, reflection from water or deck, and shielding by roofs and edges.
//
// Losses are positive dB and are taken off a level; gains are added to it. Points are metres in ship's
// axes: x forward, y to starboard, z above the waterline. The package knows nothing of rooms or panels.
package outdoor
