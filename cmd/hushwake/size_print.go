package main

import (
	"encoding/csv"
	"fmt"
	"sort"
	"strings"

	"hushwake/path/boatfile"
	"hushwake/path/study/advice"
)

func (o *sizeOptions) print(d sizeDoc) error {
	switch o.format {
	case "json":
		return printJSON(o.out, d)
	case "csv":
		return sizeCSV(o.common, d)
	}
	paragraph(o.out, "", fmt.Sprintf("%s: %s sized for the quietest %s (%d choices tried)", quote(d.Layout), d.Element, d.Listener, d.Tried))
	fmt.Fprintln(o.out)
	t := table{head: []string{"", "dB(A)", "back pressure", "length", "outer size", "dimensions"}, right: []bool{false, true, true, true, true, false}}
	add := func(name string, s *sizedDoc) {
		if s != nil {
			t.add(name, fmt.Sprintf("%.1f", deref(s.LevelDBA)), o.show(deref(s.Pressure)*1e3, boatfile.Pressure),
				o.show(deref(s.LengthM), boatfile.Length), o.show(deref(s.DiameterM), boatfile.Length), o.dimensions(s))
		}
	}
	add("as it stands", d.Present)
	add("best", d.Best)
	if d.Equal != nil && deref(d.Equal.LevelDBA) > deref(d.Best.LevelDBA) {
		add("best at no more pressure", d.Equal)
	}
	shown := spread(len(d.Front), frontRows)
	for _, i := range shown {
		add(fmt.Sprintf("front %d", i+1), &d.Front[i])
	}
	t.print(o.out)
	fmt.Fprintln(o.out)
	if len(d.Front) > 0 {
		paragraph(o.out, "", fmt.Sprintf("The front holds the choices that nothing beats in level, back pressure, length and price at once: "+
			"%d of %d are shown, json and csv give all.", len(shown), len(d.Front)))
	}
	paragraph(o.out, "", d.sentence(o.common))
	if d.Limit != "" {
		paragraph(o.out, "", sentence(d.Limit))
	}
	for _, n := range d.Notes {
		paragraph(o.out, "note: ", n)
	}
	for _, s := range d.borne {
		o.helps(s, d.Listener)
	}
	return nil
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

// sentence says in plain words what the search found.
func (d sizeDoc) sentence(c *common) string {
	switch {
	case d.Best == nil && d.Cancelled:
		return "The search was stopped before it found a choice that keeps the budget."
	case d.Best == nil:
		return "No choice keeps the budget: give it more back pressure, length or diameter, or take another kind of element."
	case deref(d.Best.LevelDBA) >= deref(d.Present.LevelDBA):
		return "Nothing in the budget is quieter than the element as it stands."
	}
	text := "The best is " + d.gain(d.Best, c) + "."
	switch {
	case d.Equal == nil:
		text += " No choice in the budget is quieter than the element as it stands at equal or lower back pressure."
	case deref(d.Equal.LevelDBA) > deref(d.Best.LevelDBA):
		text += " At no more back pressure than now the best is " + d.gain(d.Equal, c) + "."
	}
	return text + " 3 dB is barely heard, 10 dB is about half as loud."
}

// gain says how much quieter a choice is, and at what cost in back pressure.
func (d sizeDoc) gain(s *sizedDoc, c *common) string {
	diff := deref(s.LevelDBA) - deref(d.Present.LevelDBA)
	text := fmt.Sprintf("%.1f dB quieter at %s than the element as it stands (%s)", -diff, d.Listener, advice.Difference(diff))
	more := 1e3 * (deref(s.Pressure) - deref(d.Present.Pressure))
	if more > 0 {
		return text + " and costs " + c.show(more, boatfile.Pressure) + " more back pressure"
	}
	return text + ", at " + c.show(-more, boatfile.Pressure) + " less back pressure"
}

func (o *sizeOptions) dimensions(s *sizedDoc) string {
	names := make([]string, 0, len(s.Dimensions))
	for n := range s.Dimensions {
		names = append(names, n)
	}
	sort.Strings(names)
	parts := make([]string, len(names))
	for i, n := range names {
		v := deref(s.Dimensions[n])
		switch {
		case n == "porosity":
			parts[i] = fmt.Sprintf("%s %.0f %%", n, v*100)
		case n == "volume_m3":
			parts[i] = "volume " + o.show(v, boatfile.Volume)
		default:
			parts[i] = strings.ReplaceAll(n, "_", " ") + " " + o.show(v, boatfile.Length)
		}
	}
	return strings.Join(parts, ", ")
}

func sizeCSV(c *common, d sizeDoc) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"choice", "level_dba", "rated_back_pressure_kpa", "length_m", "diameter_m", "dimension", "value"})
	row := func(name string, s *sizedDoc) {
		if s == nil {
			return
		}
		keys := make([]string, 0, len(s.Dimensions))
		for k := range s.Dimensions {
			keys = append(keys, k)
		}
		sort.Strings(keys)
		for _, k := range keys {
			w.Write([]string{name, field(s.LevelDBA), field(s.Pressure), field(s.LengthM), field(s.DiameterM), k, field(s.Dimensions[k])})
		}
	}
	row("present", d.Present)
	row("best", d.Best)
	row("best at equal back pressure", d.Equal)
	for i := range d.Front {
		row(fmt.Sprintf("front %d", i+1), &d.Front[i])
	}
	w.Flush()
	return writeError(w.Error())
}
