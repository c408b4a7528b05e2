package chambers

import (
	"math"
	"testing"

	"hushwake/silencer/fourpole"
)

// benchGas is exhaust gas at about 400 C.
func benchGas() fourpole.Medium {
	return fourpole.Medium{SoundSpeed: 520, Density: 0.52, Viscosity: 3.3e-5, Prandtl: 0.7, Gamma: 1.35}
}

// modalElements are elements solved by modes, with flow and wall losses in hot gas: the demos' kinds and some odd ones.
func modalElements() map[string]fourpole.Piece {
	chamber := func(rooms []float64, in, out float64, tubes ...Tube) fourpole.Piece {
		c := Chamber{Medium: benchGas(), Bore: 0.35, Rooms: rooms, InletBore: 0.154, OutletBore: 0.154, TubeWall: 0.002,
			InletExtension: in, OutletExtension: out, Mach: 0.08, Loss: fourpole.ViscoThermal}
		for _, t := range tubes {
			c.Baffles = append(c.Baffles, Baffle{Thickness: 0.003, Tubes: []Tube{t}})
		}
		return must(c.Modes())
	}
	tube := func(change func(*PerforatedTube)) fourpole.Piece {
		p := PerforatedTube{Medium: benchGas(), Bore: 0.128, ChamberBore: 0.25, Length: 0.61, From: 0.02, To: 0.59, Holes: fourpole.GrazingHoles,
			Wall: fourpole.Perforate{Porosity: 0.27, Hole: 0.005, Wall: 0.0015}, Fill: &Filling{fourpole.PassiveMiki, 18000}, Mach: 0.1, Loss: fourpole.ViscoThermal}
		change(&p)
		return must(p.Modes())
	}
	between := Tube{Bore: 0.154, Wall: 0.002, Before: 0.112, After: 0.15}
	return map[string]fourpole.Piece{
		"chamber":        chamber([]float64{0.6}, 0, 0),
		"extended":       chamber([]float64{0.6}, 0.3, 0.15),
		"two rooms":      chamber([]float64{0.6, 0.597}, 0.3, 0.3, Tube{Bore: 0.154, Wall: 0.002, Before: 0.15, After: 0.15}),
		"three rooms":    chamber([]float64{0.45, 0.594, 0.45}, 0.225, 0.225, between, Tube{Bore: 0.154, Wall: 0.002, Before: 0.29, After: 0.112}),
		"three, holes":   chamber([]float64{0.45, 0.594, 0.45}, 0, 0.1, Tube{Bore: 0.1}, Tube{Bore: 0.154, Wall: 0.002, Before: 0.29}),
		"packed":         tube(func(*PerforatedTube) {}),
		"packed, narrow": tube(func(p *PerforatedTube) { p.Bore, p.Wall.Porosity, p.Mach = 0.076, 0.06, 0.25 }),
		"resonator":      tube(func(p *PerforatedTube) { p.Fill = nil }),
		"resonator, rest": tube(func(p *PerforatedTube) {
			p.Fill, p.Mach, p.Loss, p.Holes = nil, 0, fourpole.Lossless, fourpole.StillHoles
		}),
		"packed, rest": tube(func(p *PerforatedTube) { p.Mach, p.Holes = 0, fourpole.StillHoles }),
		"plugged":      tube(func(p *PerforatedTube) { p.Fill, p.PlugAt, p.Holes = nil, 0.3, fourpole.ThroughHoles }),
	}
}

// bandPoints are 36 frequencies to the octave, 22 Hz to 11 kHz, as the octaves of a line take them.
func bandPoints() []float64 {
	w := make([]float64, 324)
	for i := range w {
		w[i] = 2 * math.Pi * 31.6 * math.Pow(10, 0.3*((float64(i)+0.5)/36-0.5))
	}
	return w
}

// BenchmarkModes evaluates one element over all points of the nine octaves.
func BenchmarkModes(b *testing.B) {
	w := bandPoints()
	out := make([]fourpole.Matrix, len(w))
	for name, p := range modalElements() {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				fourpole.NewGrid(w).Sweep(p, out)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(w)), "ns/frequency")
		})
	}
}
