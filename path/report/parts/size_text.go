package parts

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/study/advice"
	"hushwake/source/spectrum"
)

// Document is the choices themselves.
func (d *Size) Document() any { return d }

// Sheet has a row for each dimension of each choice.
func (d *Size) Sheet() form.Sheet {
	out := form.Sheet{{"choice", "level_dba", "rated_back_pressure_kpa", "length_m", "diameter_m", "dimension", "value"}}
	row := func(name string, s *Sized) {
		if s == nil {
			return
		}
		for _, k := range slices.Sorted(maps.Keys(s.Dimensions)) {
			out.Add(name, form.Field(s.LevelDBA), form.Field(s.Pressure), form.Field(s.LengthM), form.Field(s.DiameterM), k, form.Field(s.Dimensions[k]))
		}
	}
	row("present", d.Present)
	row("quietest", d.Best)
	row("quietest at equal back pressure", d.Equal)
	for i := range d.Front {
		row(fmt.Sprintf("front %d", i+1), &d.Front[i])
	}
	return out
}

// Text shows the quietest, some of the front, and what limits the element.
func (d *Size) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s: %s sized for the quietest %s (%d choices tried)", form.Quote(d.Layout), d.Element, d.Listener, d.Tried)
	t.Blank()
	shown := spread(len(d.Front), frontRows)
	t.Table(d.choices(shown, u))
	t.Blank()
	if len(d.Front) > 0 {
		t.Say("", "The front holds the choices that nothing beats in level, back pressure, length and price at once: "+
			"%d of %d are shown, json and csv give all.", len(shown), len(d.Front))
	}
	t.Say("", "%s", d.found(u))
	if d.Limit != "" {
		t.Say("", "%s", form.Sentence(d.Limit))
	}
	for _, n := range d.Notes {
		t.Say("note: ", "%s", u.Local(n))
	}
	for _, s := range d.borne {
		SayHelps(t, s, d.Listener, u)
	}
	return t
}

// choices is the table of the element as it stands, the quietest, and the shown ones of the front.
func (d *Size) choices(shown []int, u form.Units) *form.Table {
	t := form.NewTable("", ">dB(A)", ">back pressure", ">length", ">outer size", "dimensions")
	add := func(name string, s *Sized) {
		if s != nil {
			t.Add(name, fmt.Sprintf("%.1f", spectrum.Tenth(form.Deref(s.LevelDBA))), u.Show(form.Deref(s.Pressure)*1e3, quantity.Pressure),
				toTheMillimetre(u, form.Deref(s.LengthM)), toTheMillimetre(u, form.Deref(s.DiameterM)), s.dimensions(u))
		}
	}
	add("as it stands", d.Present)
	add("quietest", d.Best)
	if d.Equal != nil && form.Deref(d.Equal.LevelDBA) > form.Deref(d.Best.LevelDBA) {
		add("quietest at no more pressure", d.Equal)
	}
	for _, i := range shown {
		add(fmt.Sprintf("front %d", i+1), &d.Front[i])
	}
	return t
}

// frontRows is how many of the front a table shows.
const frontRows = 8

// spread picks at most n of the indices below total, evenly, the first and the last among them.
func spread(total, n int) (out []int) {
	if total <= n {
		n = total
	}
	for k := range n {
		out = append(out, k*(total-1)/max(n-1, 1))
	}
	return out
}

// found says in plain words what the search found.
func (d *Size) found(u form.Units) string {
	switch {
	case d.Best == nil && d.Cancelled:
		return "The search was stopped before it found a choice that keeps the budget."
	case d.Best == nil:
		return "No choice keeps the budget: give it more back pressure, length or diameter, or take another kind of element."
	case form.Deref(d.Best.LevelDBA) >= form.Deref(d.Present.LevelDBA):
		return "Nothing in the budget is quieter than the element as it stands."
	}
	text := "The quietest is " + d.gain(d.Best, u) + "."
	switch {
	case d.Equal == nil:
		text += " No choice in the budget is quieter than the element as it stands at equal or lower back pressure."
	case form.Deref(d.Equal.LevelDBA) > form.Deref(d.Best.LevelDBA):
		text += " At no more back pressure than now the quietest is " + d.gain(d.Equal, u) + "."
	}
	return text + " 3 dB is barely heard."
}

// gain says how much quieter a choice is, and at what cost in back pressure.
func (d *Size) gain(s *Sized, u form.Units) string {
	diff := form.Deref(s.LevelDBA) - form.Deref(d.Present.LevelDBA)
	text := fmt.Sprintf("%.1f dB quieter at %s than the element as it stands (%s)", -diff, d.Listener, advice.Difference(diff))
	more := 1e3 * (form.Deref(s.Pressure) - form.Deref(d.Present.Pressure))
	if more > 0 {
		return text + " and costs " + u.Show(more, quantity.Pressure) + " more back pressure"
	}
	return text + ", at " + u.Show(-more, quantity.Pressure) + " less back pressure"
}

func (s *Sized) dimensions(u form.Units) string {
	names := slices.Sorted(maps.Keys(s.Dimensions))
	parts := make([]string, len(names))
	for i, n := range names {
		v := form.Deref(s.Dimensions[n])
		switch {
		case n == "porosity":
			parts[i] = fmt.Sprintf("%s %.0f %%", n, v*100)
		case n == "volume_m3":
			parts[i] = "volume " + u.Show(v, quantity.Volume)
		default:
			parts[i] = strings.ReplaceAll(n, "_", " ") + " " + toTheMillimetre(u, v)
		}
	}
	return strings.Join(parts, ", ")
}

// toTheMillimetre prints a dimension, m, as it can be cut: to the millimetre, sheets and holes under 10 mm finer.
func toTheMillimetre(u form.Units, m float64) string {
	if u.System == quantity.Metric && m >= 0.01 {
		m = math.Round(m*1e3) / 1e3
	}
	return u.Show(m, quantity.Length)
}
