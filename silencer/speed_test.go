package silencer_test

import (
	"math"
	"math/cmplx"
	"testing"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
)

// twelve is a line of pipes, steps and chambers: 12 elements.
func twelve() *silencer.Line {
	l := &silencer.Line{} // no outlet: transmission loss alone, as the plain loop does
	for i := range 12 {
		if i%4 == 3 {
			l.Elements = append(l.Elements, &silencer.Chamber{Bore: 0.3, Rooms: []float64{0.3 + 0.05*float64(i)}, InletBore: 0.1, OutletBore: 0.1})
			continue
		}
		l.Elements = append(l.Elements, &silencer.Pipe{Bore: 0.1, Length: 0.3 + 0.1*float64(i)})
	}
	return l
}

const (
	points   = 4000
	elements = 12
)

func BenchmarkCurve12Elements(b *testing.B) {
	for _, method := range []string{"plane", "modes"} {
		b.Run(method, func(b *testing.B) {
			l, hz := twelve(), grid(2, 2*points, 2)
			f := bench(343, 1.204, 0.1)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := l.Curve(f, silencer.Options{Method: method}, hz); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/points/elements, "ns/element-frequency")
		})
	}
}

// The same line as a plain loop over ducts and steps with math/cmplx, for comparison.
func BenchmarkPlainLoop12Elements(b *testing.B) {
	hz := grid(2, 2*points, 2)
	l := twelve()
	var sink complex128
	for b.Loop() {
		for _, f := range hz {
			m := [4]complex128{1, 0, 0, 1}
			for _, e := range l.Elements {
				bore, length := 0.1, 0.0
				switch x := e.(type) {
				case *silencer.Pipe:
					length = x.Length
				case *silencer.Chamber:
					bore, length = x.Bore, x.Rooms[0]
				}
				k := complex(2*math.Pi*f/343/(1-0.0025), -1e-3)
				y := complex(343/(math.Pi/4*bore*bore), 0)
				kl := k * complex(length, 0)
				c, s := cmplx.Cos(kl), cmplx.Sin(kl)
				g := cmplx.Exp(-1i * complex(0.05, 0) * kl)
				m = times(m, [4]complex128{g * c, g * 1i * y * s, g * 1i * s / y, g * c})
				if bore > 0.1 { // the two steps of a chamber
					m = times(times([4]complex128{1, y * 0.1, 0, 1}, m), [4]complex128{1, y*0.2 + 1i*k, 0, 1})
				}
			}
			sink += complex(20*math.Log10(cmplx.Abs(m[0]+m[1]/4e4+m[2]*4e4+m[3])/2), 0)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/points/elements, "ns/element-frequency")
	_ = sink
}

func times(m, t [4]complex128) [4]complex128 {
	return [4]complex128{m[0]*t[0] + m[1]*t[2], m[0]*t[1] + m[1]*t[3], m[2]*t[0] + m[3]*t[2], m[2]*t[1] + m[3]*t[3]}
}

func BenchmarkAcoustics(b *testing.B) {
	l, f := longLine(), linetest.Exhaust(0.22, 430)
	for i := range 40 {
		f.Lines = append(f.Lines, silencer.SourceLine{Frequency: 40 * float64(i+1), Level: 120 - float64(i)})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := l.Acoustics(f, silencer.Options{Ceiling: true}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMarchWet(b *testing.B) {
	l, f := wetLine(0.076), linetest.Exhaust(0.0527, 520)
	for b.Loop() {
		if _, err := l.March(f, silencer.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
