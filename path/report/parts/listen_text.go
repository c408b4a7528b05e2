package parts

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"hushwake/path/recording"
	"hushwake/path/recording/order"
	"hushwake/path/report/form"
	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
)

// shown is how many orders the text shows of a recording.
const shown = 12

// Text tells each recording, then by how much they differ.
func (h *Heard) Text(form.Units) *form.Text {
	t := &form.Text{}
	for _, r := range h.all {
		h.say(t, r)
		t.Blank()
	}
	if h.beside != nil {
		t.Say("", "%s", h.beside.Text)
		t.Blank()
	}
	h.sayDifferences(t)
	for _, s := range h.hints() {
		t.Say("", "%s", s)
	}
	if math.IsNaN(h.offset) {
		t.Say("", "Levels are relative to full scale: a phone by itself says no dB(A). Levels of orders against each other, and of recordings of one phone and setting "+
			"against each other, hold. Read a sound level meter once at the place of the first recording and say --level 84.5dBA, and they become levels.")
	}
	return t
}

// say tells of one recording.
func (h *Heard) say(t *form.Text, r *recording.Recording) {
	level := "no meter's reading"
	if a := h.metered(r.A); a != nil {
		level = fmt.Sprintf("%.1f dB(A), %.1f dB(C)", *a, r.C+h.offset)
	}
	t.Say("", "%s: %.0f s at %d samples a second; %s.", r.Name, r.Seconds, r.Rate, level)
	switch {
	case r.Lines != nil:
		l := r.Lines
		t.Say("", "%.0f rpm, between %.0f and %.0f; a cylinder fires %.1f times a second.", l.Speed, l.Low, l.High, r.Kind.EngineFiring(l.Speed))
	case len(r.Candidates) > 0:
		t.Say("", "The speed is not decided: most likely it is %s; others fit too. Say --rpm, and --cylinders or --boat.", form.Few(form.Each(r.Candidates, sayCandidate), "; or ", 3))
	}
	t.Say("", "To the ear: %s.", standing(r.Tone))
	bands := form.BandTable("octaves, dB")
	h.bandRow(bands, "all", r.Bands)
	if r.Lines != nil {
		h.bandRow(bands, "between the orders", r.Lines.Broadband)
	}
	t.Table(bands)
	if r.Lines != nil && len(r.Lines.Orders) > 0 {
		t.Blank()
		t.Table(h.orders(r.Lines.Orders))
	}
}

// standing says which tone stands out and by how much.
func standing(t audibility.Tone) string {
	if t.Word() == "" {
		return ToneWords(t)
	}
	return fmt.Sprintf("%s, %.0f dB over just heard (ISO/PAS 20065)", ToneWords(t), t.Audibility)
}

func sayCandidate(c order.Track) string {
	stroke, s := "", "s"
	if c.Kind.TwoStroke {
		stroke = " of two strokes"
	}
	if c.Kind.Cylinders == 1 {
		s = ""
	}
	return fmt.Sprintf("%.0f rpm with %d cylinder%s%s, firing at %.1f Hz", c.Middle(), c.Kind.Cylinders, s, stroke, c.Kind.EngineFiring(c.Middle()))
}

// bandRow adds levels on the scale that is known.
func (h *Heard) bandRow(t *form.Table, name string, b spectrum.Bands) {
	row := []string{name}
	for _, v := range b {
		if s := h.scaled(v); s == nil {
			row = append(row, "-")
		} else {
			row = append(row, fmt.Sprintf("%.1f", *s))
		}
	}
	t.Add(row...)
}

// orders are the strongest lines, by order.
func (h *Heard) orders(all []order.Line) *form.Table {
	strongest := slices.Clone(all)
	slices.SortStableFunc(strongest, func(a, b order.Line) int { return int(math.Copysign(1, b.Level-a.Level)) })
	strongest = strongest[:min(len(strongest), shown)]
	slices.SortStableFunc(strongest, func(a, b order.Line) int { return int(math.Copysign(1, a.Order-b.Order)) })
	t := form.NewTable(">order", ">frequency", ">level", ">under the strongest", "")
	top := slices.MaxFunc(strongest, func(a, b order.Line) int { return int(math.Copysign(1, a.Level-b.Level)) }).Level
	for _, l := range strongest {
		t.Add(strconv.FormatFloat(l.Order, 'g', 4, 64), fmt.Sprintf("%.1f Hz", l.Frequency), fmt.Sprintf("%.1f dB", *h.scaled(l.Level)), fmt.Sprintf("%.1f dB", top-l.Level), labelOf(l))
	}
	return t
}

// sayDifferences tells by how much recordings differ.
func (h *Heard) sayDifferences(t *form.Text) {
	if len(h.differences) == 0 {
		return
	}
	t.Say("", "Differences, of one phone at one setting: plus is louder.")
	bands := form.BandTable("dB")
	bands.Column("A", true)
	for _, d := range h.differences {
		row := []string{d.To.Name + " less " + d.From.Name}
		for _, v := range d.Bands {
			if math.IsNaN(v) {
				row = append(row, "-")
			} else {
				row = append(row, fmt.Sprintf("%+.1f", v))
			}
		}
		bands.Add(append(row, fmt.Sprintf("%+.1f", d.A))...)
	}
	t.Table(bands)
	for _, d := range h.differences {
		var steps []string
		for _, o := range d.Orders {
			steps = append(steps, fmt.Sprintf("%g %+.1f dB", o.Order, o.Difference))
		}
		if len(steps) > 0 {
			t.Say("  ", "orders of %s less %s: %s", d.To.Name, d.From.Name, form.Few(steps, ", ", shown))
		}
	}
	t.Blank()
}
