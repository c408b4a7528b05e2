package spectrum

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/published"
	"hushwake/source/published/publishedtest"
)

var near = publishedtest.Near

func drawBands(t *rapid.T, lo, hi float64) (b Bands) {
	for i := range b {
		b[i] = rapid.Float64Range(lo, hi).Draw(t, "level")
	}
	return b
}

// IEC 61672-1:2013 table 3: the formulas at the exact centres round to the tabulated weights.
func TestWeightsEqualTheTable(t *testing.T) {
	for i, f := range Exact {
		near(t, "A", math.Round(10*AAt(f))/10, A[i], 1e-9)
	}
	near(t, "A at 1 kHz", AAt(1000), 0, 0.01)
	for _, f := range []float64{0, -5, math.NaN()} {
		if AAt(f) != Silent {
			t.Errorf("weight at %g Hz is not silent", f)
		}
	}
	if a := AAt(1e-9); a != Silent {
		t.Errorf("A at 1 nHz: %g", a)
	}
}

func TestBandOf(t *testing.T) {
	for i, f := range Exact {
		for _, x := range []float64{0.999 * math.Pow(10, 0.15), 1, 1.001 * math.Pow(10, -0.15)} {
			if b := BandOf(f * x); b != i {
				t.Errorf("%g Hz lies in band %d, not %d", f*x, b, i)
			}
		}
	}
	for _, f := range []float64{0, -1, 22, 11300, math.NaN(), math.Inf(1)} {
		if b := BandOf(f); b != -1 {
			t.Errorf("%g Hz lies in band %d", f, b)
		}
	}
}

// Worked examples of a building physics reader (TU Eindhoven 2020-2021).
func TestReaderExamples(t *testing.T) {
	s := Silent
	near(t, "2.1", Bands{s, s, 87, 91, 85, 80, 75, 62, s}.DBA(), 86.8, 0.05)
	q4 := Bands{s, 85.1, 81.4, 77.6, 73.2, 74.4, 78.8, 75.2, 71.2}
	near(t, "Q4 linear", q4.Total(), 88.4, 0.05)
	near(t, "Q4 A", q4.DBA(), 83.0, 0.05)
}

// Two equal levels add 3 dB, energy sums lie between the greatest and greatest + 10 lg N.
func TestSums(t *testing.T) {
	near(t, "60 + 60", Sum(60, 60), 63.0103, 1e-4)
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBands(rt, -50, 150)
		most := b[0]
		for _, v := range b {
			most = math.Max(most, v)
		}
		if total := b.Total(); total < most-1e-9 || total > most+10*math.Log10(N)+1e-9 {
			rt.Fatalf("total %g of %v", total, b)
		}
		if s := SumBands(b, b); math.Abs(s[3]-b[3]-10*math.Log10(2)) > 1e-6 {
			rt.Fatalf("doubling adds %g dB", s[3]-b[3])
		}
		if d := b.Shift(7).DBA() - b.DBA(); math.Abs(d-7) > 1e-6 {
			rt.Fatalf("shift by 7 dB moves dB(A) by %g", d)
		}
	})
	if Sum() != Silent || Level(0) != Silent {
		t.Error("no sound is not silent")
	}
}

func TestNoiseRating(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		nr := rapid.Float64Range(0, 130).Draw(rt, "nr")
		if got, _ := NR(NRCurve(nr)); math.Abs(got-nr) > 1e-9 {
			rt.Fatalf("curve %g rates %g", nr, got)
		}
		i := rapid.IntRange(0, N-1).Draw(rt, "band")
		b := NRCurve(nr)
		b[i] += 5
		if got, governs := NR(b); governs != i || got <= nr {
			rt.Fatalf("band %d raised: NR %g by band %d", i, got, governs)
		}
	})
	// AS 1469:1983: NR 40 at 63 Hz is 67.1 dB, at 1 kHz 40 dB.
	near(t, "NR 40", NRCurve(40)[1], 67.1, 0.05)
	if NRValid(-5) || NRValid(140) || !NRValid(60) {
		t.Error("validity of NR")
	}
}

func TestExposure(t *testing.T) {
	near(t, "8 h", Exposure8h(84, 8), 84, 1e-12)
	near(t, "4 h", Exposure8h(88, 4), 85, 0.02)
	near(t, "hours to 85 at 88", HoursTo(85, 88), 4, 0.02)
	near(t, "never more than a day", HoursTo(80, 60), 24, 0)
	near(t, "two halves", exposureLevel(period{90, 2}, period{90, 3}), Exposure8h(90, 5), 1e-9)
	if Exposure8h(90, 0) != Silent {
		t.Error("no time is not silent")
	}
}

func TestWatches(t *testing.T) {
	for _, c := range []struct{ passage, watch, off, on float64 }{
		{30, 4, 4, 12}, {30, 4, 8, 8}, {6, 4, 4, 4}, {10, 4, 4, 6}, {48, 3, 9, 6}, {24, 24, 0, 24},
	} {
		on, off, err := Watches{c.passage, c.watch, c.off}.Day()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "on watch", on, c.on, 1e-9)
		near(t, "day", on+off, math.Min(c.passage, 24), 1e-9)
	}
	lex, leq, err := Watches{30, 4, 4}.Exposure(80, 80)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "24 h at 80", leq, 80, 1e-9)
	near(t, "as 8 h", lex, 84.77, 0.01)
	for _, w := range []Watches{{}, {10, 0, 4}, {10, -1, 4}, {math.Inf(1), 4, 4}, {10, math.NaN(), 4}} {
		if _, _, err := w.Exposure(80, 60); err == nil {
			t.Errorf("%v was taken", w)
		}
	}
}

func TestCriteria(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range criteria {
		if seen[c.Name] || c.Source == "" || !slices.Contains(published.Marks, c.Mark) || c.Text == "" || c.Limit < 40 || c.Limit > 120 {
			t.Errorf("criterion %+v", c)
		}
		seen[c.Name] = true
		if !c.Binding && c.Standing() != "guidance" {
			t.Errorf("%s does not bind and stands as %s", c.Name, c.Standing())
		}
	}
	of := map[float64]string{10e3: "recreational craft to 10 kW", 10.1e3: "recreational craft 10 to 40 kW", 40e3: "recreational craft 10 to 40 kW", 300e3: "recreational craft over 40 kW"}
	for power, name := range of {
		if c, ok := PassBy(power); !ok || c.Name != name {
			t.Errorf("%g W: %+v", power, c)
		}
	}
	for place, name := range map[string]string{"Aft Cabin": "cabin", "helm wheelhouse": "wheelhouse", "wing deck outside": "look-out post", "next boat": "next boat by day"} {
		if c := CriteriaFor(place); len(c) == 0 || c[0].Name != name {
			t.Errorf("%s: %+v", place, c)
		}
	}
	if len(CriteriaFor("bathtub")) > 0 {
		t.Error("found a bathtub")
	}
}

// Every row reaches somebody: a kind that is listed as a whole, a power, or words of a place.
func TestCriteriaReach(t *testing.T) {
	for _, c := range criteria {
		if !slices.Contains([]string{"exposure", "state test", "harbour"}, c.Kind) && len(c.Words) == 0 && math.IsInf(c.To, 1) && c.Over == 0 {
			t.Errorf("%s is compared with nothing", c.Name)
		}
	}
	for _, bad := range []string{"place,a,x,dB(A),s,read,no,t,,,", "place,a,80,dB(A),s,read,no,t,,y,", "place,a,80,dB(A),s,read,no"} {
		if _, err := readCriteria("kind,name,limit,unit,source,mark,binding,text,words,over_kw,to_kw\n" + bad); err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
}
