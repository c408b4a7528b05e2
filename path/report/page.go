package report

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/offers"
	"hushwake/path/study/passage"
	"hushwake/path/study/readings"
	"hushwake/path/study/sweep"
	"hushwake/path/study/verify"
	"hushwake/silencer/safety"
	"hushwake/source/cores"
	"hushwake/source/spectrum"
)

// Page is the data of the offline page.
func (w *Comparison) Page(u form.Units) (*Page, error) {
	r := &Page{
		Boat: w.Boat.Text, Version: form.Version, Imperial: u.System == quantity.Imperial, Currency: w.Boat.Currency,
		Provenance: fmt.Sprintf("seed %d, %d draws, %s", w.Spread.Draws.Seed, w.Spread.Draws.N, w.dutyText(u)),
		BandsHz:    spectrum.Nominal[:], NRCurves: nrCurves(), Warnings: w.Warnings(u), NotValidated: verify.NotValidated,
		File: filepath.Base(w.Boat.File), Hash: w.Boat.Hash, Answer: w.answer(), Why: w.advise().Why, Main: w.Listener, EarSource: earSource,
	}
	r.Floor, r.Beats = form.Each(w.Floors(), NewFloor), form.Each(passage.Beats(w.Predictions), NewBeat)
	for _, l := range w.Boat.Listeners {
		r.Listeners = append(r.Listeners, w.pageSeat(l))
	}
	order := w.Order(w.Listener)
	w.pageChoice(r, order)
	if err := w.pageWork(r, order, u); err != nil {
		return nil, err
	}
	w.pageMeasure(r)
	r.Cautions = w.pageCautions(order, u)
	told := order[r.InDetail()[0]]
	for _, f := range w.gather(w.Predictions[told:told+1], false, allNames, u) {
		r.Own = append(r.Own, sharedCaution(f, u))
	}
	w.pageChains(r, u)
	w.pageTrust(r, u)
	return r, nil
}

// pageWork does side by side what takes long, each in a place of its own on the page.
func (w *Comparison) pageWork(r *Page, order []int, u form.Units) error {
	w.fronts()
	var quotes []offers.Judged
	var swept, failed error
	parallel := []func(){
		func() { r.Layouts, failed = w.pageLayouts(order, u) },
		func() { r.Sweeps, r.OverLoad, swept = w.pageSweeps(r.InDetail(), order) },
		func() { r.Helps = w.pageHelps(u) },
		func() { quotes = w.offers() },
		func() { r.Enclosures = w.pageBoxes(order, u) },
		func() { verified() },
	}
	cores.Each(len(parallel), func(i int) { parallel[i]() })
	if err := cmp.Or(failed, swept); err != nil {
		return err
	}
	w.pageOffers(r, quotes, order, u)
	return nil
}

// pageLayouts works the layouts out side by side, in their order.
func (w *Comparison) pageLayouts(order []int, u form.Units) ([]PageLayout, error) {
	out := make([]PageLayout, len(order))
	errs := make([]error, len(order))
	cores.Each(len(order), func(at int) { out[at], errs[at] = w.pageLayout(order[at], u) })
	return out, errors.Join(errs...)
}

func (w *Comparison) pageSeat(l path.Listener) PageListener {
	out := PageListener{Name: l.Name, Where: "in " + l.In, LimitDBA: l.Limit, Read: w.read(l.Name)}
	if l.In == path.Outside {
		out.Where = "outside"
	}
	if l.Hours > 0 {
		h := l.Hours
		out.Hours = &h
	}
	return out
}

// nrCurves are the curves about the levels on the page.
func nrCurves() []NRCurve {
	var out []NRCurve
	for nr := 30.0; nr <= 90; nr += 10 {
		b := spectrum.NRCurve(nr)
		out = append(out, NRCurve{Name: fmt.Sprintf("NR %.0f", nr), BandsDB: form.BandValues(b)})
	}
	return out
}

func (w *Comparison) pageLayout(i int, u form.Units) (PageLayout, error) {
	p, s := &w.Predictions[i], w.Spread.Layouts[i]
	l := PageLayout{Name: p.Layout.Name, Place: 1 + slices.Index(w.Boat.Layouts, p.Layout), Refused: p.Refused, RefusedFor: refusedFor(p), Verdict: w.Verdict(i), Measured: readings.OverMeasured(p), Wet: p.Layout.Wet(), Price: p.Layout.Price, LengthM: p.Length, MassKG: p.Mass, Fits: p.Fits}
	if u := p.Layout.Unpriced; len(u) > 0 {
		l.PriceNote = "without " + strings.Join(u, ", ") + ": not priced"
	}
	if readings.Unbelieved(p) {
		l.AsRead = " as read"
	}
	if w.Asked(i) {
		l.Questions, l.Slots = u.LocalAll(w.asks[i].questions), w.slots(p.Layout)
	}
	for j := range p.Listeners {
		l.Heard = append(l.Heard, w.pageListener(i, j, u))
	}
	for j := range p.Exhausts {
		x, err := w.pageExhaust(i, j, s.Exhausts[j])
		if err != nil {
			return l, err
		}
		l.Exhausts = append(l.Exhausts, x)
	}
	for _, f := range p.Findings {
		switch f.Code {
		case safety.CodeDoesNotFit, safety.CodeTight, safety.CodeTooLong:
			l.SpaceNote = strings.TrimSpace(l.SpaceNote + " " + u.Local(form.Sentence(f.Text)))
		}
		if f.Refuse {
			l.Refusals = append(l.Refusals, u.Local(form.Sentence(f.Text)+" "+form.Sentence(f.Action)))
		}
	}
	return l, nil
}

// PlacesOnPage is where each layout stands on the page.
func (w *Comparison) PlacesOnPage(order []int) map[string]int {
	at := map[string]int{}
	for k, i := range order {
		at[w.Predictions[i].Layout.Name] = k
	}
	return at
}

// pageCautions are the cautions of all layouts, each wording once, with the layouts it concerns.
func (w *Comparison) pageCautions(order []int, u form.Units) []Caution {
	at := w.PlacesOnPage(order)
	var out []Caution
	for _, f := range w.cautions(allNames, u) {
		c := sharedCaution(f, u)
		for _, name := range f.in {
			c.Places = append(c.Places, at[name])
		}
		out = append(out, c)
	}
	return out
}

func sharedCaution(f sharedFinding, u form.Units) Caution {
	return Caution{Code: f.Code, Severity: f.Severity, Text: form.Sentence(f.Text), Action: form.Sentence(f.Action), Source: u.Local(f.Source)}
}

func (w *Comparison) pageListener(i, j int, u form.Units) Listener {
	h, s := &w.Predictions[i].Listeners[j], w.Spread.Layouts[i].Listeners[j]
	out := newListener(h, s)
	e := w.ear(i, j)
	out.Quietest, out.Means, out.Ear = form.Num(s.Quietest), meaning(h, s, u), &e
	if nr, _ := spectrum.NR(h.Bands); !spectrum.NRValid(nr) {
		out.NR = nil
	}
	for _, t := range w.fronts() {
		if t.Layout == w.Predictions[i].Layout.Name && t.Listener == h.Listener.Name {
			out.OnFront = t.OnFront
		}
	}
	return out
}

func (w *Comparison) pageExhaust(i, j int, s draws.PressureSpread) (Exhaust, error) {
	r := &w.Predictions[i].Exhausts[j]
	x := newExhaust(r, s)
	left := r.Rated.BackPressure
	for _, row := range r.Rated.Rows {
		skin := form.Celsius(row.SkinTemperature)
		if row.Length == 0 {
			skin = nil // a step or a mouth has no outside
		}
		x.Along = append(x.Along, Along{Name: row.Name, Kind: row.Kind, LossKPa: form.Kilopascal(row.PressureLoss),
			PressureKPa: form.Kilopascal(left), GasC: form.Celsius(row.GasTemperature), SkinC: skin,
			VelocityMS: form.Num(row.Velocity), GrowthMM: form.Num(row.Growth * 1e3)})
		left -= row.PressureLoss
	}
	var err error
	x.Loss, err = w.pageLoss(i, r)
	return x, err
}

// pageLoss is the curve of the line up to 2 kHz with the engine's strongest orders.
func (w *Comparison) pageLoss(i int, r *path.ExhaustResult) (Loss, error) {
	f, err := parts.FeedOf(w.Boat, w.Predictions[i].Layout, r.Engine)
	if err != nil {
		return Loss{}, err
	}
	f.Options.Rational = true // no eye sees 0.01 dB
	c, err := f.Line.Curve(f.Feed, f.Options, lossFrequencies())
	if err != nil {
		return Loss{}, err
	}
	out := Loss{FrequencyHz: c.Frequency, TransmissionDB: form.Numbers(c.TransmissionLoss), InsertionDB: form.Numbers(c.InsertionLoss)}
	for _, row := range r.Running.Rows {
		if row.CutOn > 0 && (out.TrustedToHz == nil || row.CutOn < *out.TrustedToHz) {
			out.TrustedToHz = form.Num(row.CutOn)
		}
	}
	for _, o := range parts.Strongest(r.Source.Orders, 8) {
		out.Orders = append(out.Orders, PageOrder{Order: o.Order, FrequencyHz: o.Frequency, LevelDB: form.Level(o.Level),
			Firing: sameFrequency(o.Frequency, float64(r.Source.FiringFrequency))})
	}
	return out, nil
}

// lossFrequencies are as fine as the chart: close below, where the orders are, 10 Hz above.
func lossFrequencies() (hz []float64) {
	for v := 20.0; v < 2000; v += min(10, max(1, v/25)) {
		hz = append(hz, v)
	}
	return append(hz, 2000)
}

func sameFrequency(a, b float64) bool { return a > 0 && (a-b)/a < 1e-6 && (b-a)/a < 1e-6 }

// pageChains takes the loudest route to the first listener of the layout that is chosen and of today's.
func (w *Comparison) pageChains(r *Page, u form.Units) {
	for _, at := range r.InDetail() {
		h := &w.Predictions[w.indexOf(r.Layouts[at].Name)].Listeners[w.Listener]
		if len(h.Routes) == 0 {
			continue
		}
		loudest := h.Routes[0]
		c := Chain{Layout: at, Listener: w.Listener, Source: loudest.Source, Route: loudest.Route, LevelDBA: form.Level(loudest.DBA())}
		for _, s := range loudest.Steps {
			c.Links = append(c.Links, ExplainStep{Name: u.Local(s.Name), Cited: s.Saying(strings.Join(append([]string{s.Formula}, u.LocalAll(s.Notes)...), "; ")), Bands: form.BandValues(s.Bands)})
		}
		r.Chains = append(r.Chains, c)
	}
}

// pageSpeeds is how many speeds the page shows from 40 % of the rated one: fewer would pass booms over. Of today's layout
// one of every few is enough for a plain line beside it.
const (
	pageSpeeds = 25
	plainEvery = 3
)

// dutiesOf are what the page sweeps layouts over, none where no engine of theirs runs.
func dutiesOf(layouts []*path.Layout) (over parts.Duties) {
	rated := sweep.RatedSpeed(layouts)
	switch {
	case rated == 0:
		return over
	case sweep.OverLoad(layouts):
		return parts.Loads
	}
	for k := range pageSpeeds {
		over.At = append(over.At, rated*(0.4+0.6*float64(k)/(pageSpeeds-1)))
	}
	return over
}

// every keeps the first of each n duties.
func every(n int, over parts.Duties) parts.Duties {
	out := parts.Duties{OverLoad: over.OverLoad}
	for k := 0; k < len(over.At); k += n {
		out.At = append(out.At, over.At[k])
	}
	return out
}

// pageSweeps sweeps the layout that is told of first, with its booms, and today's for a line beside it.
func (w *Comparison) pageSweeps(told, order []int) (out []PageSweep, overLoad bool, err error) {
	layouts := form.Each(told, func(at int) *path.Layout { return w.Predictions[order[at]].Layout })
	w.Known.Only(layouts)
	over := dutiesOf(layouts)
	for k, l := range layouts {
		s, err := w.swept(told[k], l, over)
		if err != nil {
			return nil, false, err
		}
		if s.Plain = k > 0; len(s.Points) > 0 {
			out = append(out, s)
		}
		over = every(plainEvery, over)
	}
	return out, over.OverLoad, nil
}

// swept is a layout over duties, with its place on the page.
func (w *Comparison) swept(at int, l *path.Layout, over parts.Duties) (PageSweep, error) {
	if len(over.At) == 0 {
		return PageSweep{}, nil
	}
	all, err := parts.SweepLayouts(context.Background(), w.Known, w.Boat, []*path.Layout{l}, over, nil)
	if err != nil || len(all) == 0 {
		return PageSweep{}, err
	}
	return pageSweep(w, at, all[0]), nil
}

func pageSweep(w *Comparison, at int, s sweep.Swept) PageSweep {
	out := PageSweep{Layout: at}
	for _, p := range s.Points {
		pt := PageSpeed{SpeedRPM: p.Speed, LoadPercent: 100 * p.Load, PowerKW: form.Num(p.Power / 1e3), BackPressureKPa: form.Kilopascal(p.BackPressure)}
		for _, l := range p.Listeners {
			pt.LevelDBA = append(pt.LevelDBA, form.Level(l.Level))
		}
		out.Points = append(out.Points, pt)
	}
	for _, b := range s.Booms {
		j := slices.IndexFunc(w.Boat.Listeners, func(l path.Listener) bool { return l.Name == b.Listener })
		if j < 0 {
			continue
		}
		out.Engine = b.Engine
		out.Booms = append(out.Booms, PageBoom{SpeedRPM: b.Speed, Listener: j, Order: b.Order, FrequencyHz: b.Frequency, Text: b.Text})
	}
	return out
}
