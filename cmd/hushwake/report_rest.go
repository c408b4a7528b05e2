package main

import (
	"fmt"
	"sort"
	"strings"

	"hushwake/charts"
	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/offers"
	"hushwake/path/study/verify"
	"hushwake/silencer"
)

// reportOffers shows the quotes on one basis.
func (w *worked) reportOffers(r *charts.Report, order []int, c *common) {
	local := c.local
	for _, j := range w.offers() {
		o := charts.Offer{Name: j.Name, Judged: j.Judgeable, Why: local(j.Verdict), Rank: j.Rank, Layout: -1, LossDBA: j.LossDBA,
			LossBasis: local(j.LossBasis), HotKPa: numOr(j.Drop, 1e-3), Price: j.Price, PriceWhole: j.Total, Questions: localAll(j.Questions, local),
			QuotedBasis: "not stated"}
		if j.Loss != nil {
			o.LossDB = bandValues(*j.Loss)
		}
		if j.DropHigh != nil && j.DropLow != nil && *j.DropHigh > *j.DropLow*1.02 {
			o.HotKPa, o.HotHighKPa = numOr(j.DropLow, 1e-3), numOr(j.DropHigh, 1e-3)
		}
		w.quoted(&o, j, c)
		w.placed(&o, j, order)
		noteOffer(r, &o, j)
		o.FitNote = local(o.FitNote)
		r.Offers = append(r.Offers, o)
	}
}

// noteOffer says of the layout that an offer makes how long it takes and what its price leaves out.
func noteOffer(r *charts.Report, o *charts.Offer, j offers.Judged) {
	if o.Layout < 0 {
		return
	}
	l := &r.Layouts[o.Layout]
	l.LeadTime = o.LeadTime
	if len(j.UnpricedExtras) > 0 {
		l.PriceNote = "without " + strings.Join(j.UnpricedExtras, ", ") + ", not priced by " + o.Name
	}
}

// quoted adds what the offer itself says.
func (w *worked) quoted(o *charts.Offer, j offers.Judged, c *common) {
	for _, q := range w.boat.Quotes {
		if q.Name != j.Name {
			continue
		}
		o.Claim, o.LeadTime = q.Claim, q.LeadTime
		o.NotIncluded = c.extrasText(w.boat.Currency, q.Extras)
		if q.Loss != nil {
			o.QuotedKPa, o.QuotedBasis = num(q.Loss.Drop/1e3), c.quotedBasis(q.Loss)
		}
	}
}

// placed adds what becomes of the layout that the offer makes.
func (w *worked) placed(o *charts.Offer, j offers.Judged, order []int) {
	for at, i := range order {
		p := &w.predictions[i]
		if p.Layout.Name != j.Layout {
			continue
		}
		o.Layout, o.Fits, o.LineKPa = at, p.Fits, numOr(w.worstPressure(i), 1e-3)
		if e := w.worstExhaust(i); e >= 0 {
			o.LimitKPa = numOr(p.Exhausts[e].Limit, 1e-3)
		}
		for _, f := range p.Findings {
			if f.Code == silencer.CodeDoesNotFit || f.Code == silencer.CodeTight {
				o.FitNote = sentence(f.Text)
			}
		}
	}
	if j.Level != nil {
		o.Acceptance = append(o.Acceptance, charts.Reading{Listener: w.listener, LevelDBA: level(*j.Level), LowDBA: level(*j.Low),
			HighDBA: level(*j.High), Conditions: w.dutyText() + ", doors as in the file"})
	}
}

// reportBoxes shows the generator boxes in use.
func (w *worked) reportBoxes(r *charts.Report, order []int, local func(string) string) {
	at := w.placesOnPage(order)
	boxes, err := usedBoxes(w.boat)
	if err != nil {
		return // no engine stands in a box
	}
	for _, u := range boxes {
		place, shown := at[u.layout]
		if !shown {
			continue
		}
		s, a := u.box.Sound, u.box.Air
		e := charts.Enclosure{
			Name: s.Name + ", " + u.layout, Layouts: []int{place}, InsertionDB: bandValues(s.Loss), InsertionDBA: num(s.DBA), AirM3S: num(a.Flow),
			CombustionM3S: num(a.CombustionAir), CoolingM3S: num(a.CoolingAir), InletM2: num(a.InletArea), InletNeededM2: num(a.InletAreaNeeded),
			OutletM2: num(a.OutletArea), InletMS: num(a.InletVelocity), InletDropPa: num(a.PressureDrop), FanPa: num(a.FanPressure),
			RiseK: num(a.Rise), Warnings: localAll(boxWarnings(u.box), local),
		}
		if a.FanStopped != nil {
			e.FanStoppedRiseK, e.FanStoppedText = num(a.FanStopped.Rise), local(a.FanStopped.Text)
		}
		for _, v := range a.Verdicts {
			e.Verdicts = append(e.Verdicts, charts.Verdict{Code: v.Code, Text: local(v.Text)})
		}
		for _, c := range s.Changes {
			e.Changes = append(e.Changes, charts.Change{Change: local(c.Change), InsertionDBA: num(c.DBA)})
		}
		r.Enclosures = append(r.Enclosures, e)
	}
	sort.SliceStable(r.Enclosures, func(a, b int) bool { return r.Enclosures[a].Layouts[0] < r.Enclosures[b].Layouts[0] })
}

// inBackground begins a job whose result is fetched later.
func inBackground[T any](job func() (T, error)) (fetch func() (T, error)) {
	done := make(chan struct{})
	var v T
	var err error
	go func() {
		defer close(done)
		v, err = job()
	}()
	return func() (T, error) {
		<-done
		return v, err
	}
}

// reportTrust adds assumptions and what the program is checked against.
func (w *worked) reportTrust(r *charts.Report, verified func() (verify.Report, error), local func(string) string) {
	for _, a := range w.assumptions() {
		r.Assumptions = append(r.Assumptions, charts.Assumption{Field: a.Field, Value: local(a.Value), Source: local(a.Source), PlusMinusDB: a.PlusMinus})
	}
	v, err := verified()
	if err != nil {
		return
	}
	for _, k := range headline(v.Checks) {
		r.VerifiedBy = append(r.VerifiedBy, charts.Check{What: k.What, Source: k.Source, Expected: fmt.Sprintf("%.5g %s", k.Expected, k.Unit),
			Ours: short(k.Ours), Tolerance: fmt.Sprintf("%.2g", k.Tolerance), Passed: k.Verdict == verify.Holds})
	}
}

// headline takes the first check of every publication, and every one that fails: the page shows what
// sort of proof there is, 'verify' shows all.
func headline(all []verify.Result) (out []verify.Result) {
	seen := map[string]bool{}
	for _, k := range all {
		if seen[k.Source] && k.Verdict == verify.Holds {
			continue
		}
		seen[k.Source] = true
		out = append(out, k)
	}
	return out
}

func localAll(texts []string, local func(string) string) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = local(t)
	}
	return out
}

// quotedBasis says in words for which gas and flow a quoted pressure drop holds.
func (c *common) quotedBasis(l *silencer.Loss) string {
	text := map[silencer.PressureBasis]string{silencer.BasisHot: "hot exhaust", silencer.BasisEqualMass: "cold gas at the same mass flow",
		silencer.BasisEqualVolume: "cold gas at the same volume flow"}[l.Basis]
	if text == "" {
		text = "not said for which gas and flow"
	}
	if l.Temperature > 0 {
		text += ", " + c.show(l.Temperature, boatfile.Temperature)
	}
	switch {
	case l.MassFlow > 0:
		text += ", " + c.show(l.MassFlow, boatfile.MassFlow)
	case l.VolumeFlow > 0:
		text += ", " + c.show(l.VolumeFlow, boatfile.VolumeFlow)
	default:
		text += ", flow not stated"
	}
	return text
}

// extrasText lists what the price leaves out, with its price where one is stated.
func (c *common) extrasText(currency string, extras []path.Extra) (out []string) {
	for _, x := range extras {
		text := x.What + " (price not stated)"
		if x.Price != nil {
			text = fmt.Sprintf("%s (%.0f %s)", x.What, *x.Price, currency)
		}
		out = append(out, text)
	}
	return out
}
