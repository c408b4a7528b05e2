//go:build !js

package outdoor

import (
	"errors"
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

var Checks = published.Values{
	"outdoor.Divergence": func(a []float64) (float64, error) { return Divergence(a[0]) },
	"outdoor.Absorption": func(a []float64) (float64, error) { return absorptionCheck(a) },
	"outdoor.Reflection": func(a []float64) (float64, error) {
		return Reflection(Point(a[0:3]), Point(a[3:6]), nil).Gain[5], nil
	},
	"outdoor.Level":       func(a []float64) (float64, error) { return openLevel(a, int(a[10])) },
	"outdoor.LevelDBA":    openDBA,
	"outdoor.directivity": func(a []float64) (float64, error) { return directivity(a[0], a[1]*math.Pi/180), nil },
	"outdoor.Screen": func(a []float64) (float64, error) {
		s := Screen{Z: a[0], E: a[1], Edges: int(a[2])}
		return s.Loss(a[3])[int(a[4])], nil
	},
	"outdoor.OverEdge":  overEdge,
	"outdoor.OverRoof":  overRoof,
	"outdoor.LevelFrom": levelFrom,
}

// absorptionCheck takes K, Pa, humidity, band and gives dB/km.
func absorptionCheck(a []float64) (float64, error) {
	b, err := Absorption(a[0], a[1], a[2])
	return b[int(a[3])] * 1000, err
}

// openLevel takes sound power, source, receiver, K, Pa, humidity: hard ground, nothing in the way.
func openLevel(a []float64, band int) (float64, error) {
	s, r := Point{a[1], a[2], a[3]}, Point{a[4], a[5], a[6]}
	d := distance(s, r)
	spread, err := Divergence(d)
	if err != nil {
		return 0, err
	}
	air, err := Absorption(a[7], a[8], a[9])
	return a[0] - spread - air[band]*d + rigidGround, err
}

func openDBA(a []float64) (float64, error) {
	b := spectrum.Fill(spectrum.Silent)
	for i := 1; i < spectrum.N; i++ {
		v, err := openLevel(a, i)
		if err != nil {
			return 0, err
		}
		b[i] = v
	}
	return b.DBA(), nil
}

// overEdge takes source, receiver, the two ends of the edge, and the band: shielding over the top alone.
func overEdge(a []float64) (float64, error) {
	e := Segment{From: Point{a[6], a[7], a[8]}, To: Point{a[9], a[10], a[11]}}
	return topLoss(Shielding(Point(a[0:3]), Point(a[3:6]), []Segment{e}, nil), int(a[12]))
}

// overRoof takes source, receiver, corner and size of a body, and the band.
func overRoof(a []float64) (float64, error) {
	b := BoxAt("body", Point(a[6:9]), Point(a[9:12]))
	return topLoss(Shielding(Point(a[0:3]), Point(a[3:6]), nil, []Box{b}), int(a[12]))
}

func topLoss(s Shield, band int) (float64, error) {
	if s.Over.Edges == 0 {
		return 0, errors.New("nothing in the way")
	}
	return s.Over.Loss(GroundInside)[band], nil
}

// levelFrom takes groups of level, its distance, the new distance and a loss: the energy sum of all.
func levelFrom(a []float64) (float64, error) {
	var levels []float64
	for ; len(a) >= 4; a = a[4:] {
		near, err := Divergence(a[1])
		if err != nil {
			return 0, err
		}
		far, err := Divergence(a[2])
		if err != nil {
			return 0, err
		}
		levels = append(levels, a[0]+near-far-a[3])
	}
	return spectrum.Sum(levels...), nil
}
