package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

type enquiryOptions struct {
	*common
	pick
	output string
	force  bool
}

func newEnquiry(c *common) *cobra.Command {
	o := &enquiryOptions{common: c}
	cmd := &cobra.Command{
		Use:   "enquiry FILE --layout L --element N",
		Short: "A like-for-like request for quotes, in Markdown, that a maker can answer and be held to",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	f := cmd.Flags()
	o.flags(f, "the element that is to be bought", "where the level is judged")
	f.StringVar(&o.output, "output", "", "write to this file instead of stdout")
	f.BoolVar(&o.force, "force", false, "replace an existing file")
	return cmd
}

func (o *enquiryOptions) run(file string) error {
	p, err := o.pick.load(o.common, file)
	if err != nil {
		return err
	}
	w, err := wantOf(p.boat, p.at, p.listener)
	if err != nil {
		return err
	}
	text := o.markdown(w)
	if o.output != "" {
		return writeFile(o.output, []byte(text), o.force)
	}
	if o.format == "json" {
		return printJSON(o.out, map[string]string{"markdown": text})
	}
	_, err = fmt.Fprint(o.out, text)
	return writeError(err)
}

// want is what the element has to do.
type want struct {
	boat     *path.Boat
	at       chosen
	engine   *path.Engine
	listener int
	with     *path.Prediction // the layout as it stands
	without  *path.Prediction // the element replaced by plain pipe
	rated    silencer.Row     // gas at the element at rated
	running  silencer.Row
	loss     spectrum.Bands // wanted, dB
	why      string
	spread   draws.LevelSpread
}

func wantOf(b *path.Boat, at chosen, listener int) (*want, error) {
	w := &want{boat: b, at: at, listener: listener}
	name := at.layout.Exhausts[at.exhaust].Engine
	e, ok := at.layout.Engine(name)
	if !ok {
		return nil, badInput("the line of %q has no engine: an enquiry needs its flow and temperature", name)
	}
	w.engine = e
	with, err := path.Predict(b, at.layout)
	if err != nil {
		return nil, badInput("%w", err)
	}
	without, err := path.Predict(b, at.with(at.plain()))
	if err != nil {
		return nil, badInput("%w", err)
	}
	w.with, w.without = &with, &without
	w.rated, w.running = rowOf(w.exhaust(w.with).Rated, at.at), rowOf(w.exhaust(w.with).Running, at.at)
	w.loss, w.why = w.lossWanted()
	m, err := draws.NewModel([]path.Prediction{with})
	if err != nil {
		return nil, failed("%w", err)
	}
	s, err := m.MonteCarlo(m.Prior(), draws.Options{})
	if err != nil {
		return nil, failed("%w", err)
	}
	w.spread = s.Layouts[0].Listeners[listener]
	return w, nil
}

func (w *want) exhaust(p *path.Prediction) *path.ExhaustResult {
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

// plain is a pipe in the place of the element.
func (c chosen) plain() silencer.Element {
	length := 0.5
	switch e := c.element.(type) {
	case *silencer.Chamber:
		length = 0
		for _, r := range e.Rooms {
			length += r
		}
	case *silencer.Perforated:
		length = e.Length
	case *silencer.Packed:
		length = e.Length
	case *silencer.Plugged:
		length = e.Length
	case *silencer.Given:
		length = math.Max(e.Length, 0.1)
	}
	base := c.element.Base()
	return &silencer.Pipe{Common: silencer.Common{Name: "plain pipe", In: base.In, Material: base.Material, Lagging: base.Lagging},
		Bore: c.bore(), Length: length, Wall: 0.003}
}

// otherNoise is how far below the limit the exhaust is asked to stay, dB: the other routes need room.
const otherNoise = 3.0

// lossWanted is the octave loss that brings the exhaust at the listener to its limit less room for
// the other routes; without a limit, or where it cannot be reached, 10 dB below the other routes.
func (w *want) lossWanted() (spectrum.Bands, string) {
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
	goal, why := others.DBA()-10, fmt.Sprintf("10 dB below what the engine's other noise makes there (%.0f dB(A))", others.DBA())
	if l := h.Listener.Limit; l != nil {
		switch {
		case others.DBA() < *l-otherNoise:
			goal, why = *l-otherNoise, fmt.Sprintf("%.0f dB below the limit of %.0f dB(A), which leaves room for the other noise there (%.0f dB(A))", otherNoise, *l, others.DBA())
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
func (w *want) pressureLeft() (left, pipe, limit float64, ok bool) {
	l := w.engine.Limit
	pipe = w.exhaust(w.without).Rated.BackPressure
	if l == nil {
		return 0, pipe, 0, false
	}
	return foulingShare**l - pipe, pipe, *l, true
}

// foulingShare is how much of the limit a clean line may use (common practice, no source).
const foulingShare = 0.75

func (o *enquiryOptions) pressureClause(w *want) string {
	left, pipe, limit, ok := w.pressureLeft()
	switch {
	case !ok:
		return "- Pressure loss: the engine maker's back-pressure limit is not known to us yet; state the loss at the flow and temperature above."
	case left <= 0:
		return fmt.Sprintf("- Pressure loss: none is left. The limit is %s at rated; three quarters of it, for a clean line, are %s, and the rest of the line takes %s.",
			o.show(limit, boatfile.Pressure), o.show(foulingShare*limit, boatfile.Pressure), o.show(pipe, boatfile.Pressure))
	}
	return fmt.Sprintf("- Pressure loss: at most **%s** at the rated flow and temperature above, clean. (Limit at the engine %s; a quarter is kept for fouling; the rest of the line takes %s.)",
		o.show(left, boatfile.Pressure), o.show(limit, boatfile.Pressure), o.show(pipe, boatfile.Pressure))
}
