package charts

import (
	"fmt"
	"math"

	"hushwake/charts/picture"
	"hushwake/path/report"
	"hushwake/path/report/parts"
	"hushwake/source/published"
)

// All data here is invented: it only has to be plausible enough to look at.

func f64(x float64) *float64 { return &x }

func ptrs(v ...float64) []*float64 {
	out := make([]*float64, len(v))
	for i := range v {
		out[i] = &v[i]
	}
	return out
}

var sampleLayouts = []string{"dry stack, straight through", "dry stack, three-room chamber of 356 mm in the trunk aft of bath", "two stages",
	"dry riser, injection after the top", "wet with lift chamber under the aft cabin sole and a long hose to port", "offer A", "offer B", "offer C with reducers"}

var sampleListeners = []string{"helm", "aft cabin", "aft deck", "wing deck outside the wheelhouse door, starboard", "saloon", "next boat"}

// sample is a report of the size asked for.
func sample(layouts, listeners int) *report.Page {
	r := &report.Page{Boat: "Invented workboat, six-cylinder two-stroke, dry stack against wet", Version: "0.1", Provenance: "boat.yaml, seed 1, 2000 draws",
		Currency: "EUR",
		File:     "boat.yaml", Hash: "0123456789abcdef", Chosen: layouts - 1, Today: 0,
		Advice: []string{"Take layout 3, two stages: 71 dB(A) at the helm (67 to 75), 13 dB below what you have, which sounds less than half as loud.",
			"It costs the engine 4.6 of the 10.2 kPa its maker allows at rated, and 7 600 EUR."},
		Answer:  []string{"The largest doubt is the level of the engine itself; one reading at the helm would halve the band."},
		BandsHz: []float64{31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000}}
	for j := range listeners {
		l := report.PageListener{Name: sampleListeners[j%len(sampleListeners)], Where: "in the wheelhouse, door shut", Hours: f64(8)}
		if j%2 == 0 {
			l.LimitDBA = f64(75)
		}
		r.Listeners = append(r.Listeners, l)
	}
	for i := range layouts {
		r.Layouts = append(r.Layouts, sampleLayout(i, listeners))
	}
	if listeners > 0 {
		r.Helps = report.PageHelps{Layout: r.Layouts[0].Name, Changes: []report.PageChange{{Change: "soft mounts", DB: make([]float64, listeners)}}}
		r.Helps.Changes[0].DB[0] = -4
		r.Measure = []report.PageMeasure{{Listener: listeners - 1, Before: 5, After: 3}}
		for i := range r.Layouts {
			r.Pictures = append(r.Pictures, samplePictures(r, i))
		}
		r.Fall = picture.Waterfall{Seat: r.Listeners[0].Name, Title: "fall", Cascades: []picture.Cascade{{Layout: "a", Source: "main exhaust", Way: picture.Outlet,
			Falls: []picture.Fall{{Name: "source", After: 120}, {Name: "line", After: 95}}}}}
	}
	for nr := 30; nr <= 110; nr += 10 {
		r.NRCurves = append(r.NRCurves, sampleRating(nr))
	}
	for i := range min(layouts, 3) {
		if listeners > 0 {
			r.Chains = append(r.Chains, sampleChain(i))
		}
		r.Sweeps = append(r.Sweeps, sampleSweep(i, listeners))
	}
	r.Assumptions = []parts.Assumption{{Field: "engines.main.exhaust.flow", Value: "0.317 kg/s", Source: "fuel and air-fuel ratio of a blower two-stroke, common practice", PlusMinus: f64(1.5)},
		{Field: "spaces.wheelhouse.lining", Value: "furnished cabin", Source: "common practice, no source", PlusMinus: nil}}
	r.VerifiedBy = []report.PageCheck{{What: "friction factor, rough pipe", Source: "Colebrook 1939", Expected: "0.0202", Ours: "0.0202", Tolerance: "0.0001", Passed: true}, {What: "simple expansion chamber", Source: "closed form", Expected: "9.6 dB", Ours: "9.6 dB", Tolerance: "0.1 dB", Passed: true}}
	r.NotValidated = []string{"No boat was measured before and after.", "No wet exhaust was compared with a dry one on the same boat."}
	r.Warnings = []string{"The end correction is used outside its range (ka 1.9, valid to 1.5)."}
	r.Cautions = []report.Caution{{Code: "co", Severity: "danger", Text: "Moving an outlet changes where the gas goes.", Action: "Fit a CO alarm in every sleeping space.", Source: "common practice", Places: nil}}
	return r
}

func sampleLayout(i, listeners int) report.PageLayout {
	l := report.PageLayout{Name: sampleLayouts[i%len(sampleLayouts)], Place: i + 1, Price: f64(900 + 1700*float64(i)), LengthM: f64(0.6 + 0.2*float64(i)), MassKG: f64(14 + 6*float64(i)), LeadTime: "5 weeks"}
	if i == 1 {
		l.Refused, l.Refusals = true, []string{"506 mm with lagging does not go into 510 mm clear with the gap that a hot shell needs."}
		l.Fits = new(bool)
	}
	if i == 4 {
		l.Price, l.LengthM = nil, nil
	}
	l.Cautions = []report.Caution{{Code: "skin", Severity: "warning", Text: "The silencer's skin reaches 240 °C.", Action: "Lag it, and keep 50 mm from wood.", Source: "", Places: nil}}
	for j := range listeners {
		l.Heard = append(l.Heard, sampleHeard(i, j))
	}
	l.Exhausts = []report.Exhaust{sampleExhaust(i)}
	return l
}

func samplePictures(r *report.Page, i int) picture.Set {
	y := r.Layouts[i]
	out := picture.Set{Layout: i, Boat: &picture.Boat{Title: "boat", Layout: y.Name, Chosen: r.Listeners[0].Name,
		Spaces:  []picture.Space{{Name: "engine room", Size: picture.Point{4, 3, 2}}, {Name: "wheelhouse", At: picture.Point{2, 0, 2}, Size: picture.Point{2, 3, 2}}},
		Engines: []picture.Engine{{Name: "main", At: picture.Point{1, 1.5, 0.5}}}, Outlets: []picture.Mouth{{Name: "outlet", At: picture.Point{0, 1.5, 3}, Pointing: picture.Point{-1, 0, 0}}}}}
	for j, h := range y.Heard {
		level := picture.Level{DBA: *h.LevelDBA, Low: *h.LowDBA, High: *h.HighDBA}
		out.Boat.Seats = append(out.Boat.Seats, picture.Seat{Name: r.Listeners[j].Name, At: picture.Point{3, 0.5 * float64(j), 3}, Level: level, Limit: r.Listeners[j].LimitDBA, Rules: picture.Outlet})
		out.Bands = append(out.Bands, picture.Band{Name: r.Listeners[j].Name, Level: level, Limit: r.Listeners[j].LimitDBA, From: 40, To: 110})
		out.Ladders = append(out.Ladders, picture.Ladder{Title: "ladder", Seat: r.Listeners[j].Name, Layout: y.Name, Total: level, Limit: r.Listeners[j].LimitDBA,
			Rungs: []picture.Rung{{Way: picture.Outlet, Source: "main exhaust", Level: *h.LevelDBA}}})
	}
	for range y.Exhausts {
		out.Lines = append(out.Lines, picture.Line{Title: "line", Engine: "main", Parts: []picture.Part{{Name: "riser", Length: 2, Bore: 0.1, Outer: 0.2, GasC: 300, Pressure: 3000, Size: "2 m", Gauge: "3 kPa", Gas: "300 °C", Skin: "60 °C"}}})
	}
	return out
}

func sampleHeard(i, j int) report.Listener {
	level := 86 - 4.1*float64(i) + 3*float64(j%3) + float64(i*j%3)
	h := report.Listener{LevelDBA: &level, LowDBA: f64(level - 3.2), HighDBA: f64(level + 3.9), LevelDBC: f64(level + 9), NR: f64(level - 4),
		Quietest: f64(float64(i) / 28), ProbabilityOverLimit: f64(1 / (1 + math.Exp(-(level-75)/3))), OnFront: i%2 == 0,
		Means: []string{"talk with a raised voice at 1 m; 85 dB(A) is not reached in a watch of 8 h"}}
	for b := range 9 {
		h.Bands = append(h.Bands, f64(level+4-2.2*math.Abs(float64(b)-2.5)))
	}
	for k, n := range []string{"outlet, windows, wheelhouse", "outlet, roof, wheelhouse", "shell, engine room, deck hatch", "casing, bulkhead, cabin", "door gap", "intake", "structure", "pipe wall", "alternator"} {
		h.Paths = append(h.Paths, report.Route{Source: "main exhaust", Route: n, LevelDBA: f64(level - 1 - 3*float64((k+i)%9))})
	}
	return h
}

func sampleExhaust(i int) report.Exhaust {
	p := 3.1 + 0.9*float64(i)
	e := report.Exhaust{Engine: "main", BackPressure: f64(p * 0.6), RatedBackPressure: &p, RatedLow: f64(p * 0.88), RatedHigh: f64(p * 1.14), Limit: f64(10.2),
		ProbabilityOverLimit: f64(0.02 * float64(i)), OutletTemperature: f64(310), OutletVelocity: f64(48), InsertionLossDBA: f64(12 + 2*float64(i)), InsertionLoss: ptrs(3, 6, 12, 18, 22, 24, 22, 18, 14)}
	for f := 10.0; f <= 8000; f += 5 {
		e.Loss.FrequencyHz = append(e.Loss.FrequencyHz, f)
		tl := 10 * math.Log10(1+20*math.Pow(math.Sin(2*math.Pi*f*(0.5+0.1*float64(i))/520), 2))
		e.Loss.TransmissionDB = append(e.Loss.TransmissionDB, f64(tl))
		e.Loss.InsertionDB = append(e.Loss.InsertionDB, f64(tl+3*math.Sin(f/40)))
	}
	e.Loss.TrustedToHz = f64(1850)
	for n := 1; n <= 8; n++ {
		e.Loss.Orders = append(e.Loss.Orders, report.PageOrder{Order: float64(6 * n), FrequencyHz: 170 * float64(n), LevelDB: f64(130 - 4*float64(n)), Firing: n == 1})
	}
	for k, name := range []string{"double bellows", "riser", "elbow", "silencer with a rather long and descriptive name", "tail pipe"} {
		e.Along = append(e.Along, report.Along{Name: name, Kind: "pipe", LossKPa: f64(p * []float64{0.05, 0.15, 0.1, 0.5, 0.2}[k]), PressureKPa: f64(p * []float64{1, 0.95, 0.8, 0.7, 0.2}[k]),
			GasC: f64(380 - 12*float64(k)), SkinC: f64(60 + 30*float64(k%3)), VelocityMS: f64(40 + 3*float64(k)), GrowthMM: f64(2 * float64(k))})
	}
	return e
}

func sampleRating(nr int) report.NRCurve {
	a := []float64{55.4, 35.5, 22, 12, 4.8, 0, -3.5, -6.1, -8}
	b := []float64{0.681, 0.790, 0.870, 0.930, 0.974, 1, 1.015, 1.025, 1.030}
	c := report.NRCurve{Name: fmt.Sprintf("NR %d", nr)}
	for k := range a {
		c.BandsDB = append(c.BandsDB, f64(a[k]+b[k]*float64(nr)))
	}
	return c
}

func sampleChain(i int) report.Chain {
	return report.Chain{Layout: i, Listener: 0, Source: "main exhaust", Route: "outlet, windows, wheelhouse", LevelDBA: f64(77), Links: []report.ExplainStep{
		{Name: "sound power of the unsilenced exhaust", Cited: published.By("Lw = 120 + 10 lg P", "public engine-noise manual, eq. 2", "read"), Bands: ptrs(118, 126, 130, 127, 122, 118, 114, 109, 103)},
		{Name: "insertion loss of the line", Cited: published.By("four-poles", "closed form", "derived"), Bands: ptrs(-1.2, -4, -9, -16, -22, -24, -23, -20, -17)},
		{Name: "outlet directivity at 70°", Cited: published.By("ka chart", "handbook", "from memory"), Bands: ptrs(0, 0, 0.4, -0.6, -2, -4, -6, -8, -9)},
		{Name: "spreading over 3.4 m", Cited: published.By("-20 lg r - 11", "ISO 9613-2:1996", "read"), Bands: ptrs(-21.6, -21.6, -21.6, -21.6, -21.6, -21.6, -21.6, -21.6, -21.6)},
		{Name: "windows and door", Cited: published.By("composite loss", "closed form", "derived"), Bands: ptrs(-8, -10, -14, -18, -22, -26, -28, -27, -31)},
		{Name: "room", Cited: published.By("10 lg(Q/4πr² + 4/R)", "textbook", "read"), Bands: ptrs(4, 3, 2, 1, 0, -1, -1, -2, -2)}}}
}

func sampleSweep(i, listeners int) report.PageSweep {
	s := report.PageSweep{Layout: i, Engine: "main"}
	for rpm := 800.0; rpm <= 2100; rpm += 50 {
		q := report.PageSpeed{SpeedRPM: rpm, PowerKW: f64(110 * math.Pow(rpm/2100, 3)), BackPressureKPa: f64((3.1 + 0.9*float64(i)) * math.Pow(rpm/2100, 2.4))}
		for j := range listeners {
			q.LevelDBA = append(q.LevelDBA, f64(86-4.1*float64(i)+3*float64(j%3)+30*math.Log10(rpm/1700)+7*math.Exp(-math.Pow((rpm-1350)/60, 2))))
		}
		s.Points = append(s.Points, q)
	}
	if listeners > 0 {
		s.Booms = []report.PageBoom{{SpeedRPM: 1350, Listener: 0, Order: 6, FrequencyHz: 135, Text: "The firing frequency meets a frequency at which the chamber passes everything."}}
	}
	return s
}

func sampleOffers() []report.Offer {
	return []report.Offer{
		{Name: "offer A", Claim: "critical grade, 25-35 dB(A)", Why: "neither octave losses nor the basis of its pressure drop are stated: cold at equal mass flow it would break the limit, at equal volume it would not", Layout: 0,
			LossBasis: "a grade word", QuotedKPa: f64(2.99), QuotedBasis: "standard air, mass or volume not stated", HotKPa: f64(1.2), HotHighKPa: f64(7.2), LineKPa: f64(8.2), LimitKPa: f64(6), Price: f64(1190),
			NotIncluded: []string{"lagging", "flanges"}, LeadTime: "3 weeks", Questions: []string{"What is the loss by octave, to which test?", "Is the pressure drop meant at equal mass flow or equal volume flow?"}},
		{Name: "offer B", Claim: "octave losses to a named test standard", Judged: true, Rank: 1, Why: "octaves and pressure are stated; the gap in the trunk is tight", Layout: 0, LossDBA: f64(24), LossDB: ptrs(6, 12, 20, 26, 30, 28, 24, 20, 18),
			LossBasis: "octaves", QuotedKPa: f64(3.2), QuotedBasis: "air 20 °C at equal volume", HotKPa: f64(1.3), LineKPa: f64(2.4), LimitKPa: f64(6), Price: f64(2140), PriceWhole: f64(2140), LeadTime: "9 weeks",
			FitNote: "5 mm a side", Questions: []string{"Can the jacket be thinner?"}, Acceptance: []report.Reading{{Listener: 0, LevelDBA: f64(77), LowDBA: f64(73), HighDBA: f64(81), Conditions: "2400 rpm, full load, door shut"}}},
		{Name: "offer C", Claim: "82 dB(A) at 3 m", Judged: true, Why: "judged on one level at a distance", Layout: -1, LossDBA: f64(22), LossBasis: "level at a distance", HotKPa: f64(1.8), LineKPa: f64(2.8), Price: f64(1760), PriceWhole: f64(3840), Fits: new(bool)},
	}
}

func sampleBox() parts.Enclosure {
	return parts.Enclosure{Name: "sound box", InsertionLoss: ptrs(2, 4, 8, 12, 17, 21, 24, 25, 25), InsertionLossDBA: f64(13), AirFlow: f64(0.02), Combustion: f64(0.0123), Cooling: f64(0.18),
		InletArea: f64(0.005), InletNeeded: f64(0.06), OutletArea: f64(0), InletVelocity: f64(2.4), InletDrop: f64(5), Rise: f64(58), FanStopped: &parts.FanStopped{Text: "There is no fan."},
		Verdicts: []parts.Verdict{{Code: "cooked", Text: "The hole feeds the engine, but a tenth of the air that cooling needs."}},
		Changes:  []parts.Change{{Change: "two bare holes of 600 cm²", DBA: f64(8)}, {Change: "the same through lined ducts of 0.6 m with one bend", DBA: f64(16)}, {Change: "another bare hole of 50 cm² for a pipe and some cables", DBA: f64(11)}}}
}

// medium holds every section once.
func medium() *report.Page {
	r := sample(3, 2)
	r.Offers = sampleOffers()
	r.Enclosures = []parts.Enclosure{sampleBox()}
	return r
}

// full is the largest report.
func full() *report.Page {
	r := sample(8, 6)
	r.Offers = sampleOffers()
	r.Enclosures = []parts.Enclosure{sampleBox()}
	return r
}
