package room

import (
	"math"

	"hushwake/source/spectrum"
)

// Sources of the steps through a partition.
const (
	ThroughSource = "power balance of coupled rooms (Kuttruff, Room Acoustics, ch. 10, from memory); UFC 3-450-01 (2003), room to room"
	DirectSource  = "energy balance: intensity on the face times its area; ISO 12354-3:2017 treats the facade alike"
)

// Incidence tells how sound meets a partition.
type Incidence int

// Kinds of incidence.
const (
	Diffuse Incidence = iota // from all sides, as in a room: a quarter of the energy density arrives
	Direct                   // from one direction, as outdoors in view of the source
)

// IntoPartition turns the pressure level before a partition into the sound power that passes it:
//
//	diffuse  Lw = L + 10 lg S - 6 - TL
//	direct   Lw = L + 10 lg(S cos theta) - TL
//
// area in m2, loss in dB, cosine of the angle between the face's outward normal and the way to the
// source (used for Direct only). Direct is never taken below diffuse: a face turned away or met at a
// grazing angle is reached by scattered sound. L is the free-field level without the face's own reflection.
func IntoPartition(how Incidence, cosine, area float64, loss spectrum.Bands) (b spectrum.Bands) {
	share := 0.25
	if how == Direct {
		share = math.Max(share, math.Min(cosine, 1))
	}
	g := spectrum.Level(share * area)
	for i := range b {
		b[i] = g - loss[i]
	}
	return b
}

// Share is the part of the sound power in the room that meets a wall of that area in m2, over all
// reflections: 10 lg(S/A). It holds the direct and the reflected sound; in a hard room it is over 0 dB,
// because sound meets a wall many times before it is absorbed.
func (r Room) Share(area float64) (b spectrum.Bands) {
	for i := range b {
		b[i] = spectrum.Level(area / r.Absorption[i])
	}
	return b
}

// FromPartition turns the sound power that a partition lets in into the level at a distance from it:
//
//	10 lg(1/(S + 2 pi r^2) + 4 (1 - (A - S t)/S_room)/A)
//
// Close to the wall its own area bounds the direct field; far off it is that of a source on a wall. With r = 0 and a
// tight wall it is the handbook's L2 = L1 - TL + 10 lg(1/4 + S/R). through is S t of the wall, m2: sound does not meet
// the wall first by which it comes. The distance r is in m, area in m2.
func (r Room) FromPartition(area float64, through spectrum.Bands, distance float64) (b spectrum.Bands) {
	direct := 1 / (math.Max(area, 0.01) + 2*math.Pi*distance*distance)
	for i := range b {
		b[i] = spectrum.Level(direct + r.reverberant(i, through[i]))
	}
	return b
}
