package verify

import (
	"errors"
	"math"

	"hushwake/path/outdoor"
	"hushwake/source/spectrum"
)

var _ = register(outdoorChecks)

var outdoorChecks = map[string]checkFunc{
	"outdoor.Divergence": func(a []float64) (float64, error) { return outdoor.Divergence(a[0]) },
	"outdoor.Absorption": func(a []float64) (float64, error) { return absorptionCheck(a) },
	"outdoor.Reflection": func(a []float64) (float64, error) {
		return outdoor.Reflection(outdoor.Point(a[0:3]), outdoor.Point(a[3:6]), nil).Gain[5], nil
	},
	"outdoor.Level":       func(a []float64) (float64, error) { return openLevel(a, int(a[10])) },
	"outdoor.LevelDBA":    openDBA,
	"outdoor.Directivity": func(a []float64) (float64, error) { return outdoor.Directivity(a[0], a[1]*math.Pi/180), nil },
	"outdoor.Screen": func(a []float64) (float64, error) {
		s := outdoor.Screen{Z: a[0], E: a[1], Edges: int(a[2])}
		return s.Loss(a[3])[int(a[4])], nil
	},
	"outdoor.OverEdge":  overEdge,
	"outdoor.OverRoof":  overRoof,
	"outdoor.LevelFrom": levelFrom,
}

// absorptionCheck takes K, Pa, humidity, band and gives dB/km.
func absorptionCheck(a []float64) (float64, error) {
	b, err := outdoor.Absorption(a[0], a[1], a[2])
	return b[int(a[3])] * 1000, err
}

// openLevel takes sound power, source, receiver, K, Pa, humidity: hard ground, nothing in the way.
func openLevel(a []float64, band int) (float64, error) {
	s, r := outdoor.Point{a[1], a[2], a[3]}, outdoor.Point{a[4], a[5], a[6]}
	d := outdoor.Distance(s, r)
	spread, err := outdoor.Divergence(d)
	if err != nil {
		return 0, err
	}
	air, err := outdoor.Absorption(a[7], a[8], a[9])
	return a[0] - spread - air[band]*d + outdoor.RigidGround, err
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
	e := outdoor.Segment{From: outdoor.Point{a[6], a[7], a[8]}, To: outdoor.Point{a[9], a[10], a[11]}}
	return topLoss(outdoor.Shielding(outdoor.Point(a[0:3]), outdoor.Point(a[3:6]), []outdoor.Segment{e}, nil), int(a[12]))
}

// overRoof takes source, receiver, corner and size of a body, and the band.
func overRoof(a []float64) (float64, error) {
	b := outdoor.BoxAt("body", outdoor.Point(a[6:9]), outdoor.Point(a[9:12]))
	return topLoss(outdoor.Shielding(outdoor.Point(a[0:3]), outdoor.Point(a[3:6]), nil, []outdoor.Box{b}), int(a[12]))
}

func topLoss(s outdoor.Shield, band int) (float64, error) {
	if s.Over.Edges == 0 {
		return 0, errors.New("nothing in the way")
	}
	return s.Over.Loss(outdoor.GroundInside)[band], nil
}

// levelFrom takes groups of level, its distance, the new distance and a loss: the energy sum of all.
func levelFrom(a []float64) (float64, error) {
	var levels []float64
	for ; len(a) >= 4; a = a[4:] {
		near, err := outdoor.Divergence(a[1])
		if err != nil {
			return 0, err
		}
		far, err := outdoor.Divergence(a[2])
		if err != nil {
			return 0, err
		}
		levels = append(levels, a[0]+near-far-a[3])
	}
	return spectrum.Sum(levels...), nil
}
