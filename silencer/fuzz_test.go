package silencer_test

import (
	"math"
	"testing"

	"hushwake/silencer"
)

// FuzzLine sends odd dimensions and flows through every kind of element: an error or finite numbers.
func FuzzLine(f *testing.F) {
	f.Add(uint8(2), 0.05, 2.0, 0.3, 0.1, 0.5, 0.05)
	f.Add(uint8(4), 0.05, 1.0, 0.3, 0.1, 0.3, 0.3)
	f.Add(uint8(9), 0.05, 31.6, 0.3, 0.1, 0.3, 0.0)
	f.Fuzz(func(t *testing.T, kind uint8, bore, ratio, length, part, share, mach float64) {
		for _, v := range []float64{bore, ratio, length, part, share, mach} {
			if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e3 {
				return
			}
		}
		bore = 0.02 + math.Mod(math.Abs(bore), 0.3)
		ratio = 1 + math.Mod(math.Abs(ratio), 31) // area ratio 1 to 1000
		mach = math.Mod(math.Abs(mach), 0.3)
		// Longer than this, narrow bores lose thousands of dB, which has no value in a curve.
		length, part = math.Mod(math.Abs(length), 20), math.Mod(math.Abs(part), 20)
		e := oddElement(kind, bore, ratio, length, part, math.Mod(math.Abs(share), 1))
		l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: bore, Length: 0.3}, e, &silencer.Pipe{Bore: bore, Length: 0.2}},
			Outlet: silencer.Outlet{Present: true, Bore: bore}}
		flow := mach * 343 * 1.204 * math.Pi / 4 * bore * bore
		hz := []float64{0.1, 1, 31, 200, 1000, 5000, 20000}
		for _, o := range []silencer.Options{{}, {Walls: "lossless", Corrections: "none", Method: "plane"}} {
			c, err := l.Curve(bench(343, 1.204, flow), o, hz)
			if err != nil {
				continue
			}
			for i := range hz {
				if math.IsNaN(c.TransmissionLoss[i]) || math.IsNaN(c.InsertionLoss[i]) {
					t.Fatalf("%T %+v, Mach %g: TL %g IL %g at %g Hz", e, e, mach, c.TransmissionLoss[i], c.InsertionLoss[i], hz[i])
				}
			}
		}
	})
}

func oddElement(kind uint8, bore, ratio, length, part, share float64) silencer.Element {
	p := silencer.Perforate{Bore: bore, ChamberBore: bore * ratio, Length: length, From: part * share, To: part, Porosity: share, Hole: 3e-3, TubeWall: 1e-3,
		Impedance: silencer.PerforateFlow(1 + kind%2)}
	switch kind % 11 {
	case 0:
		return &silencer.Pipe{Bore: bore * ratio, Length: length}
	case 1:
		return &silencer.Chamber{Bore: bore * ratio, Rooms: []float64{length}, InletBore: bore, OutletBore: bore, InletExtension: part * share, OutletExtension: part, TubeWall: 1e-3}
	case 2:
		return &silencer.Chamber{Bore: bore * ratio, Rooms: []float64{length, part}, InletBore: bore, OutletBore: bore * share, Baffle: 2e-3,
			JoinedBy: [][]silencer.Tube{{{Bore: bore * share, Before: length / 3}, {Bore: bore / 2, Wall: 1e-3}}}}
	case 3:
		return &silencer.Perforated{Perforate: p}
	case 4:
		return &silencer.Packed{Perforate: p, FlowResistivity: 100 + 1e5*share}
	case 5:
		return &silencer.Plugged{Perforate: p, PlugAt: part * (1 + share) / 2}
	case 6:
		return &silencer.SideBranch{Bore: bore * share, Length: length}
	case 7:
		return &silencer.SideBranch{NeckBore: bore * share, NeckLength: part, Volume: length / 100}
	case 10:
		return &silencer.Cone{Bores: [2]float64{bore, bore * ratio * share}, Length: length}
	case 8:
		return &silencer.Separator{Bore: bore * ratio, Height: length, DrainBore: 0.05}
	}
	return &silencer.Parallel{Branches: [][]silencer.Element{tube(bore, length), tube(bore*share, part)}}
}
