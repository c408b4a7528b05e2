//go:build !js

package room

import (
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

var Checks = published.Values{
	"room.Constant": func(a []float64) (float64, error) {
		r, err := roomOf(a[0], a[1])
		m2, _ := r.Constant(4)
		return m2, err
	},
	"room.Level": func(a []float64) (float64, error) {
		r, err := roomOf(a[1], a[2])
		return a[0] + r.Gain(a[3], a[4])[4], err
	},
	"room.DropBetween": func(a []float64) (float64, error) {
		// room constant in m2, Q, two distances
		r, err := roomWith(a[0])
		return r.Gain(a[1], a[2])[4] - r.Gain(a[1], a[3])[4], err
	},
	"room.ReverberationTime": func(a []float64) (float64, error) {
		r, err := New([3]float64(a[:3]), spectrum.Fill(a[3]))
		return r.ReverberationTime()[4], err
	},
	"room.Schroeder": func(a []float64) (float64, error) {
		r, err := New([3]float64(a[:3]), spectrum.Fill(a[3]))
		return r.Schroeder(), err
	},
	"room.RoomToRoom": func(a []float64) (float64, error) {
		// level, loss, area of the wall, absorption of the far room in m2
		near, _ := roomOf(100, 0.1)
		far, err := roomOf(100, a[3]/100)
		b, _ := Couple([]Room{near, far}, []Joint{{Rooms: [2]int{0, 1}, Through: spectrum.Fill(a[2] * spectrum.Power(-a[1]))}})
		return a[0] + spectrum.Level(b.Incident(0, 1)[4]/b.Incident(0, 0)[4]), err
	},
	"room.linedDuct": func(a []float64) (float64, error) { return linedDuct(a[0], a[1], a[2], a[3])[int(a[4])], nil },
	"room.resonance": func(a []float64) (float64, error) { return resonance(a[0], a[1]), nil },
	"room.AirFlow":   func(a []float64) (float64, error) { return AirFlow(a[0], a[1], a[2]), nil },
	"room.Louvre":    func(a []float64) (float64, error) { b, err := louvre(a[0]); return b[int(a[1])], err },
	"room.LouvreDBA": func(a []float64) (float64, error) {
		b, err := louvre(a[0])
		return b.Total(), err // the exhibit's bands carry the A-weighting already
	},
	"room.BoxDBA":   published.Args(4+2*spectrum.N, boxDBA),
	"room.fanLevel": published.Two(fanLevel),
	"room.OpenBox":  func(a []float64) (float64, error) { return openBox(a[0]) },
}

// roomOf is a cube of that surface in m2 and absorption.
func roomOf(surface, alpha float64) (Room, error) {
	side := math.Sqrt(surface / 6)
	return New([3]float64{side, side, side}, spectrum.Fill(alpha))
}

// roomWith is a room of that room constant in m2.
func roomWith(constant float64) (Room, error) { return roomOf(100, constant/(100+constant)) }

// louvre follows a city planning exhibit: an engine in a room with a louvre, A-weighted bands from
// 63 Hz; direct 1 is its own convention, 0 a diffuse interior. Its 0 % of absorption at 63 Hz gives no level;
// half the 125 Hz value reproduces its result.
func louvre(direct float64) (out spectrum.Bands, err error) {
	const squareFoot = 0.09290304
	lw := spectrum.Bands{spectrum.Silent, 63.9, 69.4, 70.7, 72.8, 72.6, 73.9, 70.9, 63.5}
	share := spectrum.Bands{0.105, 0.105, 0.21, 0.61, 0.86, 0.97, 1.01, 1.03, 1.00}
	loss := spectrum.Bands{6, 6, 6, 7, 10, 15, 20, 19, 20}
	how := Diffuse
	if direct > 0 {
		how = Direct
	}
	into := IntoPartition(how, 1, 30*squareFoot, loss)
	for i := range out {
		r, e := roomWith(396 * squareFoot * share[i])
		if e != nil {
			return out, e
		}
		near := math.Sqrt(math.Pow(10, 0.85) / (4 * math.Pi)) // direct field of Lw - 8.5
		out[i] = lw[i] + 28 + r.Gain(1, near)[i] + into[i]
	}
	return out, nil
}

// boxDBA is what a box takes off an engine's casing, dB(A): sizes in m, open area in m2, loss of its walls, absorption inside. The
// casing has the octaves of the manual's engines over 1500 rpm (UFC 3-450-02, from memory).
func boxDBA(a []float64) (float64, error) {
	casing := spectrum.Bands{89, 94, 96, 95, 96, 96, 94, 90, 84}
	p, err := Assess(Box{Size: [3]float64(a[:3]), Loss: spectrum.Bands(a[4:13]), Alpha: spectrum.Bands(a[13:]), Openings: []Opening{{Role: "leak", Area: a[3]}}}, casing)
	return p.DBA, err
}

// openBox is the insertion loss at 1 kHz of a box of which a share of the walls is open.
func openBox(share float64) (float64, error) {
	b := Box{Size: [3]float64{1, 1, 1}, Loss: spectrum.Fill(30), Mass: 10, Alpha: spectrum.Fill(0.5)}
	b.Openings = []Opening{{Role: "leak", Area: share * b.Area()}}
	p, err := Enclose(b, spectrum.Fill(90))
	return p.Loss[5], err
}
