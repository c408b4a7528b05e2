package source

import (
	"testing"

	"hushwake/source/cores"
	"hushwake/source/cycle"
)

func BenchmarkAt(b *testing.B) {
	for name, e := range map[string]Engine{"two-stroke": twoStroke(), "turbocharged": turboFour(), "set": smallSet()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				cycleCache = cores.Memo[cycleKey, *cycled]{Most: cycleCache.Most}
				if _, err := e.At(e.Rated); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(name+"/again", func(b *testing.B) {
			for b.Loop() {
				if _, err := e.At(e.Rated); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkCylinder(b *testing.B) {
	e := turboFour()
	rated, _ := e.ratedRates()
	r := e.cylinderRunning(e.Rated, e.ratesAt(e.Rated, rated), rated, 0)
	for b.Loop() {
		if _, err := cycle.Run(e.cylinder(), r, cycle.CoarseStep); err != nil {
			b.Fatal(err)
		}
	}
}
