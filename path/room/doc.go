// Package room handles sound in rooms and enclosures: direct and reverberant field, sound power that
// passes a partition from outdoors or from the next room, insertion loss of a box round an engine, and
// the air such a box needs. It knows nothing of the outdoors beyond a partition's outer face.
//
// A gain turns a level of the first kind into one of the second and is added to it: room gains turn a
// sound power (dB re 1 pW) into a pressure level (dB re 20 uPa). SI units throughout.
package room
