package report

import (
	"fmt"
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/offers"
	"hushwake/silencer"
	"hushwake/silencer/safety"
)

// pageOffers shows the quotes on one basis.
func (w *Comparison) pageOffers(r *Page, all []offers.Judged, order []int, u form.Units) {
	r.OfferEars = form.Each(w.offerEars(all), form.Sentence)
	for _, j := range all {
		o := Offer{Name: j.Name, Judged: j.Judgeable, Why: u.Local(j.Verdict), Rank: j.Rank, Layout: -1, LossDBA: j.LossDBA,
			LossBasis: u.Local(j.LossBasis), HotKPa: form.NumOr(j.Drop, 1e-3), Price: j.Price, PriceWhole: j.Total, Questions: u.LocalAll(j.Questions),
			QuotedBasis: "not stated"}
		if j.Loss != nil {
			o.LossDB = form.BandValues(*j.Loss)
		}
		if twoReadings(j) {
			o.HotKPa, o.HotHighKPa = form.NumOr(j.DropLow, 1e-3), form.NumOr(j.DropHigh, 1e-3)
		}
		w.quoted(&o, j, u)
		w.placed(&o, j, order, u)
		noteOffer(r, &o)
		o.FitNote = u.Local(o.FitNote)
		r.Offers = append(r.Offers, o)
	}
}

// noteOffer says of the layout that an offer makes how long it takes.
func noteOffer(r *Page, o *Offer) {
	if o.Layout < 0 {
		return
	}
	l := &r.Layouts[o.Layout]
	l.LeadTime = o.LeadTime
}

// quoted adds what the offer itself says.
func (w *Comparison) quoted(o *Offer, j offers.Judged, u form.Units) {
	for _, q := range w.Boat.Quotes {
		if q.Name != j.Name {
			continue
		}
		o.Claim, o.LeadTime = q.Claim, q.LeadTime
		o.NotIncluded = extrasText(w.Boat.Currency, q.Extras)
		if q.Loss != nil {
			o.QuotedKPa, o.QuotedBasis = form.Num(q.Loss.Drop/1e3), quotedBasis(q.Loss, u)
		}
	}
}

// placed adds what becomes of the layout that the offer makes.
func (w *Comparison) placed(o *Offer, j offers.Judged, order []int, u form.Units) {
	for at, i := range order {
		p := &w.Predictions[i]
		if p.Layout.Name != j.Layout {
			continue
		}
		o.Layout, o.Fits, o.LineKPa, o.LineRead = at, p.Fits, form.NumOr(w.worstPressure(i), 1e-3), w.pressureRead()
		if e := w.worstExhaust(i); e >= 0 {
			o.LimitKPa = form.NumOr(p.Exhausts[e].Limit, 1e-3)
		}
		for _, f := range p.Findings {
			if f.Code == safety.CodeDoesNotFit || f.Code == safety.CodeTight {
				o.FitNote = form.Sentence(f.Text)
			}
		}
	}
	if j.Level != nil {
		o.Acceptance = append(o.Acceptance, Reading{Listener: w.Listener, LevelDBA: form.Level(*j.Level), LowDBA: form.Level(*j.Low),
			HighDBA: form.Level(*j.High), Conditions: strings.TrimSuffix(w.dutyText(u)+", doors as in the file; "+j.CantTell, "; ")})
	}
}

// pageBoxes shows the generator boxes in use.
func (w *Comparison) pageBoxes(order []int, u form.Units) (out []parts.Enclosure) {
	at := w.PlacesOnPage(order)
	boxes, err := parts.UsedBoxes(w.Boat)
	if err != nil {
		return nil // no engine stands in a box
	}
	for _, b := range boxes {
		place, shown := at[b.Layout]
		if !shown {
			continue
		}
		b.Read(w.Known)
		e := b.Document(u)
		e.Name, e.Places = e.Name+", "+b.Layout, []int{place}
		out = append(out, e)
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].Places[0] < out[b].Places[0] })
	return out
}

// quotedBasis says in words for which gas and flow a quoted pressure drop holds.
func quotedBasis(l *silencer.Loss, u form.Units) string {
	text := map[silencer.PressureBasis]string{silencer.BasisHot: "hot exhaust", silencer.BasisEqualMass: "cold gas at the same mass flow",
		silencer.BasisEqualVolume: "cold gas at the same volume flow"}[l.Basis]
	if text == "" {
		text = "not said for which gas and flow"
	}
	if l.Temperature > 0 {
		text += ", " + u.Show(l.Temperature, quantity.Temperature)
	}
	switch {
	case l.MassFlow > 0:
		text += ", " + u.Show(l.MassFlow, quantity.MassFlow)
	case l.VolumeFlow > 0:
		text += ", " + u.Show(l.VolumeFlow, quantity.VolumeFlow)
	default:
		text += ", flow not stated"
	}
	return text
}

// extrasText lists what the price leaves out, with its price where one is stated.
func extrasText(currency string, extras []path.Extra) (out []string) {
	for _, x := range extras {
		text := x.What + " (price not stated)"
		if x.Price != nil {
			text = fmt.Sprintf("%s (%.0f %s)", x.What, *x.Price, currency)
		}
		out = append(out, text)
	}
	return out
}
