package enquiry

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Enquiry is what the element has to do.
type Enquiry struct {
	boat     *path.Boat
	at       parts.Chosen
	engine   *path.Engine
	listener int
	with     *path.Prediction // the layout as it stands
	without  *path.Prediction // the element replaced by plain pipe
	rated    silencer.Row     // gas at the element at rated
	running  silencer.Row
	loss     spectrum.Bands // wanted, dB
	why      string
	Today    draws.LevelSpread // at the listener, the layout as it stands
	fitted   draws.LevelSpread // with the wanted losses in place
}

// NewEnquiry works out what the element has to do for a listener.
func NewEnquiry(k *readings.Known, at parts.Chosen, listener int) (*Enquiry, error) {
	w := &Enquiry{boat: k.Boat, at: at, listener: listener}
	name := at.Layout.Exhausts[at.Exhaust].Engine
	e, ok := at.Layout.Engine(name)
	if !ok {
		return nil, fmt.Errorf("the line of %q has no engine: an enquiry needs its flow and temperature", name)
	}
	w.engine = e
	plain, err := scene.Predict(k.Boat, at.With(plainPipe(at)))
	if err != nil {
		return nil, err
	}
	without, err := k.Quick(plain)
	if err != nil {
		return nil, &form.Failure{Err: err}
	}
	w.with, w.without = k.At(at.Layout.Name), &without
	w.rated, w.running = rowOf(w.exhaust(w.with).Rated, at.At), rowOf(w.exhaust(w.with).Running, at.At)
	w.loss, w.why = w.lossWanted()
	for _, l := range k.Spread().Layouts {
		if l.Name == at.Layout.Name {
			w.Today = l.Listeners[listener]
		}
	}
	if w.fitted, err = w.withWanted(k); err != nil {
		return nil, &form.Failure{Err: err}
	}
	return w, nil
}

// wantedName names the element that has just the wanted losses.
const wantedName = "the silencer wanted"

// withWanted is the level with the wanted losses in place of the element, in the draws after the readings. That a maker
// keeps what is wanted is what the test finds out: it counts as certain here.
func (w *Enquiry) withWanted(k *readings.Known) (none draws.LevelSpread, err error) {
	p, err := scene.Predict(k.Boat, w.at.With(&silencer.Given{Common: silencer.Common{Name: wantedName, In: w.at.Element.Base().In, Lagging: w.at.Element.Base().Lagging},
		Offer: wantedName, InsertionLoss: &w.loss, Length: plainLength(w.at), Bore: w.at.Bore()}))
	if err != nil {
		return none, err
	}
	for _, h := range p.Listeners {
		for i := range h.Routes {
			h.Routes[i].Steps = slices.Clone(h.Routes[i].Steps)
			for j := range h.Routes[i].Steps {
				s := &h.Routes[i].Steps[j]
				s.Uncertain = slices.DeleteFunc(slices.Clone(s.Uncertain), func(u path.Uncertain) bool { return u.Key == "quote/"+wantedName })
			}
		}
	}
	m, err := draws.NewModel([]path.Prediction{p})
	if err != nil {
		return none, err
	}
	return m.SpreadOf(m.Run(k.Draws)).Layouts[0].Listeners[w.listener], nil
}

func (w *Enquiry) exhaust(p *path.Prediction) *path.ExhaustResult {
	for i := range p.Exhausts {
		if p.Exhausts[i].Engine == w.engine.Name {
			return &p.Exhausts[i]
		}
	}
	return &p.Exhausts[0]
}

func rowOf(m silencer.Marched, at int) silencer.Row {
	for _, r := range m.Rows {
		if r.Index == at+1 {
			return r
		}
	}
	return silencer.Row{}
}

// plainPipe is a pipe of its length in the place of the element.
func plainPipe(c parts.Chosen) silencer.Element {
	base := c.Element.Base()
	return &silencer.Pipe{Common: silencer.Common{Name: "plain pipe", In: base.In, Material: base.Material, Lagging: base.Lagging},
		Bore: c.Bore(), Length: plainLength(c), Wall: 0.003}
}

// plainLength is the length of the element, at least 100 mm, m.
func plainLength(c parts.Chosen) float64 { return math.Max(silencer.Length(c.Element), 0.1) }

// otherNoise is how far below the limit the exhaust is asked to stay, dB: the other routes need room.
const otherNoise = 3.0

// lossWanted is the octave loss that brings the exhaust at the listener to its limit less room for
// the other routes; without a limit, or where it cannot be reached, 10 dB below the other routes.
func (w *Enquiry) lossWanted() (spectrum.Bands, string) {
	h := &w.without.Listeners[w.listener]
	var outlet, rest []spectrum.Bands
	for _, r := range h.Routes {
		if r.Engine == w.engine.Name && r.Way == path.ByOutlet {
			outlet = append(outlet, r.Bands)
			continue
		}
		rest = append(rest, r.Bands)
	}
	loud, others := spectrum.SumBands(outlet...), spectrum.SumBands(rest...)
	goal, why := others.DBA()-10, fmt.Sprintf("10 dB below what the engine's other noise makes there (%.0f dB(A))", spectrum.Whole(others.DBA()))
	if l := h.Listener.Limit; l != nil {
		switch {
		case others.DBA() < *l-otherNoise:
			goal, why = *l-otherNoise, fmt.Sprintf("%.0f dB below the limit of %.0f dB(A), which leaves room for the other noise there (%.0f dB(A))", otherNoise, *l, spectrum.Whole(others.DBA()))
		default:
			why += fmt.Sprintf("; that noise alone is over or near the limit of %.0f dB(A), so no silencer reaches it", *l)
		}
	}
	return shareOut(loud, goal), why
}

// shareOut gives each octave the same A-weighted share of the goal.
func shareOut(loud spectrum.Bands, goal float64) (loss spectrum.Bands) {
	open := spectrum.N
	for range spectrum.N {
		share := goal - 10*math.Log10(float64(max(open, 1)))
		open = 0
		for i := range loss {
			loss[i] = math.Ceil(math.Max(0, loud[i]+spectrum.A[i]-share))
			if loss[i] > 0 {
				open++
			}
		}
	}
	return loss
}

// pressureLeft is what the limit leaves for the element at rated, Pa, with a margin for fouling.
func (w *Enquiry) pressureLeft() (left, pipe, limit float64, ok bool) {
	l := w.engine.Limit
	pipe = w.exhaust(w.without).Rated.BackPressure
	if l == nil {
		return 0, pipe, 0, false
	}
	return foulingShare**l - pipe, pipe, *l, true
}

// foulingShare is how much of the limit a clean line may use (common practice, no source).
const foulingShare = 0.75

func (w *Enquiry) pressureClause(u form.Units) string {
	left, pipe, limit, ok := w.pressureLeft()
	switch {
	case !ok:
		return "- Pressure loss: the engine maker's back-pressure limit is not known to us yet; state the loss at the flow and temperature above."
	case left <= 0:
		return fmt.Sprintf("- Pressure loss: none is left. The limit is %s at rated; three quarters of it, for a clean line, are %s, and the rest of the line takes %s.",
			u.Show(limit, quantity.Pressure), u.Show(foulingShare*limit, quantity.Pressure), u.Show(pipe, quantity.Pressure))
	}
	return fmt.Sprintf("- Pressure loss: at most **%s** at the rated flow and temperature above, clean. (Limit at the engine %s; a quarter is kept for fouling; the rest of the line takes %s.)",
		u.Show(left, quantity.Pressure), u.Show(limit, quantity.Pressure), u.Show(pipe, quantity.Pressure))
}
