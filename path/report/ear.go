package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/advice"
	"hushwake/path/study/offers"
	"hushwake/source/spectrum/loudness"
)

// Ear is how what reaches a place sounds, at the middle of the draws.
type Ear struct {
	Tone  *parts.Tone `json:"tone"` // null: no tone stands out
	Sone  form.Number `json:"loudness_sone"`
	Phon  form.Number `json:"loudness_phon"`
	Of    string      `json:"beside"`         // the layout that it is compared with
	Times form.Number `json:"times_as_loud"`  // by sones
	Rule  form.Number `json:"times_by_level"` // by the rule that 10 dB halve
	Text  string      `json:"text"`
}

// ear is what a layout sounds like at a place, beside today's layout or else the loudest there.
func (w *Comparison) ear(layout, seat int) Ear {
	level := w.Spread.Layouts[layout].Listeners[seat].Level
	if math.IsNaN(level) {
		return Ear{}
	}
	own := w.Ears()[layout][seat]
	e := Ear{Tone: parts.NewTone(own.Tone)}
	if own.Unrated == nil {
		e.Sone, e.Phon = form.Num(math.Round(1e3*own.Sone)/1e3), form.Level(loudness.Phon(own.Sone))
	}
	e.Text = parts.ToneWords(own.Tone)
	if of := w.beside(seat); of >= 0 && of != layout {
		e.Of = w.Predictions[of].Layout.Name
		e.Rule = form.Num(math.Pow(2, (level-w.Spread.Layouts[of].Listeners[seat].Level)/10))
		if other := w.Ears()[of][seat]; own.Unrated == nil && other.Unrated == nil && other.Sone > 0 {
			e.Times = form.Num(own.Sone / other.Sone)
		}
	}
	if own.Unrated != nil {
		e.Text += "; " + strings.ReplaceAll(own.Unrated.Error(), "\nhint: ", "; ")
	} else if e.Times != nil {
		e.Text += fmt.Sprintf("; %s %s (%.2g times by sones)", advice.Loudness(*e.Times), form.Quote(e.Of), *e.Times)
	}
	return e
}

// beside is the layout that others are held against at a place: today's, or else the loudest that can be judged.
func (w *Comparison) beside(seat int) int {
	best, level := -1, math.Inf(-1)
	for i, p := range w.Predictions {
		l := w.Spread.Layouts[i].Listeners[seat].Level
		if math.IsNaN(l) {
			continue
		}
		if p.Layout.Name == w.today(0).Layout {
			return i
		}
		if l > level {
			best, level = i, l
		}
	}
	return best
}

// earSource is said wherever the ear's words stand.
const earSource = "Tones in the form of ISO/PAS 20065 (over 4 dB beyond just heard is called a drone: judgement), loudness by ISO 532-1 for a free field, both at the middle of the draws. " +
	"How much of an octave sits on its orders is judgement, and what comes through mounts and hull counts as noise without orders."

// sayEars says for each layout at each place what stands out and how loud it is.
func (w *Comparison) sayEars(t *form.Text) {
	t.Line("\nTo the ear:\n")
	table := form.NewTable("layout")
	for j, l := range w.Boat.Listeners {
		head := l.Name
		if of := w.beside(j); of >= 0 {
			head += "\n(times as loud as " + form.Quote(w.Predictions[of].Layout.Name) + ", by sones)"
		}
		table.Column(head, false)
	}
	for _, i := range w.Order(w.Listener) {
		row := []string{w.Predictions[i].Layout.Name}
		for j := range w.Boat.Listeners {
			row = append(row, earCell(w.ear(i, j)))
		}
		table.Add(row...)
	}
	t.Table(table)
	t.Say("", "%s", earSource)
}

// earCell is a tone with its word, and the loudness beside another layout's.
func earCell(e Ear) string {
	text := "no tone"
	switch {
	case e.Text == "":
		return "?"
	case e.Tone != nil:
		text = fmt.Sprintf("%.0f Hz %s", *e.Tone.Frequency, e.Tone.Word)
	}
	switch {
	case e.Sone == nil:
		return text + ", beyond ISO 532-1"
	case e.Times != nil:
		return text + fmt.Sprintf(", %.2g", *e.Times)
	}
	return text + fmt.Sprintf(", %.3g sone", *e.Sone)
}

// offerEars says what stands out with each offer at the first place, and which offers of one level differ in that.
func (w *Comparison) offerEars(all []offers.Judged) (out []string) {
	type heard struct {
		Ear
		offer string
		level float64
	}
	var judged []heard
	for _, o := range all {
		if i := slices.Index(w.layoutNames(), o.Layout); i >= 0 && o.Level != nil {
			judged = append(judged, heard{w.ear(i, w.Listener), o.Name, w.Spread.Layouts[i].Listeners[w.Listener].Level})
		}
	}
	for i, a := range judged {
		out = append(out, fmt.Sprintf("%s at %s: %s", form.Name(a.offer), form.Name(w.Seat()), a.Text))
		for _, b := range judged[:i] {
			loud, other := a, b
			if drones(b.Ear) {
				loud, other = b, a
			}
			if math.Abs(a.level-b.level) < alike && drones(loud.Ear) && !drones(other.Ear) {
				out = append(out, fmt.Sprintf("%s and %s read the same there, but %s drones at %.0f Hz and %s does not", form.Name(b.offer), form.Name(a.offer),
					form.Name(loud.offer), *loud.Tone.Frequency, form.Name(other.offer)))
			}
		}
	}
	return out
}

// alike is a difference of levels that nobody hears, dB.
const alike = 1.0

// earChanges says where a layout of the advised one's level at the first place sounds otherwise: what the level alone hides.
func (w *Comparison) earChanges(taken int) string {
	own, level := w.ear(taken, w.Listener), w.Spread.Layouts[taken].Listeners[w.Listener].Level
	if own.Tone == nil {
		return ""
	}
	for _, i := range w.Order(w.Listener) {
		l := w.Spread.Layouts[i].Listeners[w.Listener].Level
		if i == taken || w.Predictions[i].Refused || math.IsNaN(l) || !(math.Abs(l-level) < alike) {
			continue
		}
		if other := w.ear(i, w.Listener); drones(own) && !drones(other) {
			return fmt.Sprintf("%s reads the same at %s without the drone at %.0f Hz of the one advised", form.Quote(w.Predictions[i].Layout.Name), form.Name(w.Seat()), *own.Tone.Frequency)
		}
	}
	return ""
}

func drones(e Ear) bool { return e.Tone != nil && e.Tone.Word == "drone" }
