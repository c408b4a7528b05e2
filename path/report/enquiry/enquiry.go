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
	drawn    bool              // the losses wanted are those of the part that is drawn
	bare     draws.LevelSpread // with no loss in its place; zero unless drawn
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
	for _, l := range k.Spread().Layouts {
		if l.Name == at.Layout.Name {
			w.Today = l.Listeners[listener]
		}
	}
	if err = w.want(k); err != nil {
		return nil, &form.Failure{Err: err}
	}
	return w, nil
}

// wantedName names the element that has just the wanted losses.
const wantedName = "the silencer wanted"

// withLoss is the level with a part of these losses in place of the element, its shell as drawn, in the draws after the
// readings. That a maker keeps what is wanted is what the test finds out: it counts as certain here.
func (w *Enquiry) withLoss(k *readings.Known, loss spectrum.Bands) (none draws.LevelSpread, err error) {
	p, err := scene.Predict(k.Boat, w.at.With(&silencer.Given{Common: silencer.Common{Name: wantedName, In: w.at.Element.Base().In, Lagging: w.at.Element.Base().Lagging},
		Offer: wantedName, InsertionLoss: &loss, Length: plainLength(w.at), Bore: w.at.Bore(), Shellless: true}))
	if err != nil {
		return none, err
	}
	shell := w.shell(k)
	for i := range p.Listeners {
		h := &p.Listeners[i]
		for j := range h.Routes {
			h.Routes[j].Steps = certain(h.Routes[j].Steps)
		}
		h.Routes = append(h.Routes, shell[h.Listener.Name]...)
	}
	m, err := draws.NewModel([]path.Prediction{p})
	if err != nil {
		return none, err
	}
	return m.SpreadOf(m.Run(k.Draws)).Layouts[0].Listeners[w.listener], nil
}

// certain leaves the doubt of the losses wanted out of the steps of a route.
func certain(steps []path.Step) []path.Step {
	steps = slices.Clone(steps)
	for i := range steps {
		steps[i].Uncertain = slices.DeleteFunc(slices.Clone(steps[i].Uncertain), func(u path.Uncertain) bool { return u.Key == "quote/"+wantedName })
	}
	return steps
}

// shell are the routes through the wall of the drawn element, by listener.
func (w *Enquiry) shell(k *readings.Known) map[string][]path.Route {
	out := map[string][]path.Route{}
	i := slices.IndexFunc(k.Central, func(p path.Prediction) bool { return p.Layout.Name == w.at.Layout.Name })
	for _, h := range k.Central[i].Listeners {
		for _, r := range h.Routes {
			if r.Engine == w.engine.Name && slices.ContainsFunc(r.Steps, func(s path.Step) bool { return s.Name == "through the wall of "+w.running.Name }) {
				out[h.Listener.Name] = append(out[h.Listener.Name], r)
			}
		}
	}
	return out
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

// perfectLoss is more than any silencer does, dB: what is heard behind it is the other noise.
const perfectLoss = 100.0

// want works out the losses wanted: the octave loss that brings the exhaust at the listener to its limit less room for the
// other routes; without a limit, or where it cannot be reached, 10 dB below them. A drawn part that does so is asked for itself.
func (w *Enquiry) want(k *readings.Known) error {
	perfect, err := w.withLoss(k, spectrum.Fill(perfectLoss))
	if err != nil {
		return err
	}
	goal := w.goal(perfect.Level)
	if w.outlet(w.with).DBA() <= goal {
		return w.asDrawn(k)
	}
	w.loss = shareOut(w.outlet(w.without), goal)
	w.fitted, err = w.withLoss(k, w.loss)
	return err
}

// goal is the level that the exhaust alone is asked to keep, dB(A), beside the other noise.
func (w *Enquiry) goal(others float64) float64 {
	w.why = fmt.Sprintf("It brings the exhaust at the place of judgement to 10 dB below what the engine's other noise makes there (%.0f dB(A))", spectrum.Whole(others))
	l := w.boat.Listeners[w.listener].Limit
	switch {
	case l == nil:
	case others < *l-otherNoise:
		w.why = fmt.Sprintf("It brings the exhaust at the place of judgement to %.0f dB below the limit of %.0f dB(A), which leaves room for the other noise there (%.0f dB(A))", otherNoise, *l, spectrum.Whole(others))
		return *l - otherNoise
	case others < *l:
		w.why += fmt.Sprintf("; that noise alone is near the limit of %.0f dB(A)", *l)
	default:
		w.why += fmt.Sprintf("; that noise alone is over the limit of %.0f dB(A), so no silencer reaches it", *l)
	}
	return others - 10
}

// outlet is what reaches the listener by the outlets of the engine.
func (w *Enquiry) outlet(p *path.Prediction) spectrum.Bands {
	var all []spectrum.Bands
	for _, r := range p.Listeners[w.listener].Routes {
		if r.Engine == w.engine.Name && r.Way == path.ByOutlet {
			all = append(all, r.Bands)
		}
	}
	return spectrum.SumBands(all...)
}

// asDrawn asks for what the drawn part does in its line against plain pipe, whole dB, and tells what there is without it.
func (w *Enquiry) asDrawn(k *readings.Known) error {
	w.drawn = true
	was, is := w.exhaust(w.without).OutletPower, w.exhaust(w.with).OutletPower
	for i := range w.loss {
		w.loss[i] = math.Max(0, math.Round(was[i]-is[i]))
	}
	var err error
	if w.bare, err = w.withLoss(k, spectrum.Bands{}); err != nil {
		return err
	}
	if w.fitted, err = w.withLoss(k, w.loss); err != nil {
		return err
	}
	w.why = fmt.Sprintf("That is what the part that is drawn does in this line: %.0f dB(A) at the place of judgement, against %.0f dB(A) with plain pipe in its place", spectrum.Whole(w.fitted.Level), spectrum.Whole(w.bare.Level))
	if w.loss == (spectrum.Bands{}) {
		w.why = fmt.Sprintf("The part that is drawn takes nothing off in this line, and nothing is asked of it: %.0f dB(A) at the place of judgement as with plain pipe", spectrum.Whole(w.fitted.Level))
	}
	w.why += w.limitText()
	return nil
}

// limitText says whether the drawn part keeps the limit of the listener, and whether plain pipe does.
func (w *Enquiry) limitText() string {
	l := w.boat.Listeners[w.listener].Limit
	switch {
	case l == nil:
		return ""
	case w.fitted.Level > *l:
		return fmt.Sprintf("; the limit of %.0f dB(A) isn't kept: the engine's other noise alone is over it, so no silencer in this place reaches it", *l)
	case w.bare.Level > *l:
		return fmt.Sprintf("; the limit is %.0f dB(A), which plain pipe doesn't keep", *l)
	}
	return fmt.Sprintf("; the limit of %.0f dB(A) is kept with plain pipe too", *l)
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
