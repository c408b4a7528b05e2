package room

import (
	"math"

	"hushwake/source/spectrum"
)

// Sources of the steps through a partition.
const (
	ThroughSource = "UFC 3-450-01 (2003), room to room; textbook form Lw2 = L1 + 10 lg S - 6 - TL"
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

// PowerThrough turns the sound power of a source in the room into the power that leaves it through a
// partition: the reverberant field at the wall, plus the direct field of a source at that distance.
// Pass distance 0 for the reverberant field alone.
//
//	Lw2 = Lw1 + 10 lg((4/R)/4 + Q cos/(4 pi r^2)) + 10 lg S - TL
//
// The direct share never exceeds all of the source's power.
func (r Room) PowerThrough(area float64, loss spectrum.Bands, q, distance float64) (b spectrum.Bands) {
	direct := 0.0
	if distance > 0 {
		direct = math.Min(q*area/(4*math.Pi*distance*distance), 1)
	}
	for i := range b {
		passed := math.Min(direct+area*r.reverberant[i]/4, 1)
		b[i] = spectrum.Level(passed * spectrum.Power(-loss[i]))
	}
	return b
}

// FromPartition turns the sound power that a partition lets in into the level at a distance from it:
//
//	10 lg(1/(S + 2 pi r^2) + 4/R)
//
// Close to the wall its own area bounds the direct field; far off it is that of a source on a wall.
// With r = 0 it is the handbook's L2 = L1 - TL + 10 lg(1/4 + S/R).
func (r Room) FromPartition(area, distance float64) (b spectrum.Bands) {
	direct := 1 / (math.Max(area, 0.01) + 2*math.Pi*distance*distance)
	for i := range b {
		b[i] = spectrum.Level(direct + r.reverberant[i])
	}
	return b
}

// RoomToRoom is the difference of mean levels, L2 - L1 = -TL + 10 lg(S/R2), dB; far from the wall.
func RoomToRoom(area float64, loss spectrum.Bands, receiving Room) spectrum.Bands {
	return IntoPartition(Diffuse, 1, area, loss).Plus(receiving.Reverberant())
}

// Outward turns the level in a room into the sound power that a partition or opening gives off
// outdoors; it is the diffuse form of IntoPartition.
func Outward(area float64, loss spectrum.Bands) spectrum.Bands {
	return IntoPartition(Diffuse, 1, area, loss)
}
