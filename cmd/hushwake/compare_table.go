package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/silencer"
)

// printCompare prints the answer for a person: table, sentences, refusals, cautions.
func (c *common) printCompare(w *worked) {
	paragraph(c.out, "", w.boat.Text)
	fmt.Fprintln(c.out)
	paragraph(c.out, "", fmt.Sprintf("Levels at %s, quietest first, with %s; in brackets the band that holds eight cases of ten, "+
		"which reaches further up where several ways in, each with its own doubt, add up. "+
		"Back pressure is at rated power, clean, beside the limit that the engine's maker sets.",
		w.boat.Listeners[w.listener].Name, c.local(w.dutyText())))
	fmt.Fprintln(c.out)
	c.mainTable(w).print(c.out)
	if len(w.boat.Listeners) > 1 {
		fmt.Fprintln(c.out)
		fmt.Fprintln(c.out, "At every place, dB(A) with the same band:")
		fmt.Fprintln(c.out)
		c.placesTable(w).print(c.out)
	}
	fmt.Fprintln(c.out)
	for _, s := range w.answer() {
		paragraph(c.out, "", s)
	}
	c.printMeaning(w)
	c.printOffers(w)
	c.printRefusals(w)
	c.printCautions(w)
	fmt.Fprintln(c.out)
	paragraph(c.out, "", closing)
}

// printMeaning says what the level of the first layout means at each place.
func (c *common) printMeaning(w *worked) {
	first := w.order(w.listener)[0]
	fmt.Fprintln(c.out)
	paragraph(c.out, "", fmt.Sprintf("What %s means to a person:", quote(w.predictions[first].Layout.Name)))
	for j := range w.boat.Listeners {
		h := &w.predictions[first].Listeners[j]
		paragraph(c.out, "  "+h.Listener.Name+": ", c.local(meaning(h, w.spread.Layouts[first].Listeners[j])))
	}
	if t := w.passageText(first); t != "" {
		paragraph(c.out, "  ", t)
	}
}

// closing is said under every answer.
const closing = "Checked against closed forms, finite elements, published tables and worked examples ('hushwake verify'); " +
	"not checked against any boat measured before and after. The engine maker's limit, local codes and licensed " +
	"practice come before this estimate."

// mainTable has the layouts as rows in the order of the level at the chosen listener.
func (c *common) mainTable(w *worked) *table {
	t := &table{head: []string{"layout", "dB(A)", "back pressure", "verdict", "what is loudest there", "price"},
		right: []bool{false, true, true, false, false, true}}
	for _, i := range w.order(w.listener) {
		p, h := &w.predictions[i], w.spread.Layouts[i].Listeners[w.listener]
		level := decibel(h.Level) + " (" + bandText(h.Low, h.High) + ")"
		if l := p.Listeners[w.listener].Listener.Limit; l != nil && h.Level > *l {
			level += "\nover limit"
		}
		t.add(p.Layout.Name, level, c.pressures(w, i), verdict(w, i),
			rules(&p.Listeners[w.listener]), c.price(w.boat, p.Layout.Price))
	}
	return t
}

// placesTable has a column for each listener.
func (c *common) placesTable(w *worked) *table {
	t := &table{head: []string{"layout"}, right: []bool{false}}
	for _, l := range w.boat.Listeners {
		head := l.Name
		if l.Limit != nil {
			head += fmt.Sprintf("\n(limit %.0f)", *l.Limit)
		}
		t.head, t.right = append(t.head, head), append(t.right, true)
	}
	for _, i := range w.order(w.listener) {
		row := []string{w.predictions[i].Layout.Name}
		for j, h := range w.spread.Layouts[i].Listeners {
			text := decibel(h.Level) + " (" + bandText(h.Low, h.High) + ")"
			if l := w.boat.Listeners[j].Limit; l != nil && h.Level > *l {
				text += "\nover limit"
			}
			row = append(row, text)
		}
		t.add(row...)
	}
	return t
}

// decibel prints a level for a person; silence in a word.
func decibel(db float64) string {
	if db < 0 {
		return "silent"
	}
	return fmt.Sprintf("%.0f", db)
}

func bandText(low, high float64) string {
	if high < 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f-%.0f", math.Max(0, low), high)
}

// pressures are the back pressure of the exhaust that is worst off, and its limit.
func (c *common) pressures(w *worked, layout int) string {
	e := w.worstExhaust(layout)
	if e < 0 {
		return "-"
	}
	text := c.show(w.spread.Layouts[layout].Exhausts[e].Rated, boatfile.Pressure)
	if l := w.predictions[layout].Exhausts[e].Limit; l != nil {
		return c.outOf(text, c.show(*l, boatfile.Pressure))
	}
	return text
}

// outOf joins a value with its limit, the unit once where it is the same.
func (c *common) outOf(value, limit string) string {
	number, unit, ok := strings.Cut(value, " ")
	if ok && strings.HasSuffix(limit, " "+unit) {
		return number + " of " + limit
	}
	return value + " of " + limit
}

// verdict is the mark in words.
func verdict(w *worked, layout int) string {
	p := &w.predictions[layout]
	var words []string
	if p.Refused {
		words = append(words, "REFUSED:")
		for _, f := range p.Findings {
			if f.Refuse {
				words = append(words, refusalWord(f))
			}
		}
		return strings.Join(distinct(words), " ")
	}
	return strings.Join(append(boxVerdicts(p), pressureVerdict(w, layout)), "; ")
}

// pressureVerdict judges the back pressure by the stated limit.
func pressureVerdict(w *worked, layout int) string {
	e := w.worstExhaust(layout)
	if e < 0 {
		return "-"
	}
	limit := w.predictions[layout].Exhausts[e].Limit
	switch bp := w.spread.Layouts[layout].Exhausts[e].Rated; {
	case limit == nil:
		return "no limit to judge by"
	case bp > *limit:
		return "OVER LIMIT"
	case bp > 0.75**limit:
		return "little margin"
	}
	return "within limit"
}

// boxVerdicts says which engines starve or cook in their boxes.
func boxVerdicts(p *path.Prediction) (words []string) {
	for _, r := range p.Exhausts {
		if r.Box == nil {
			continue
		}
		for _, v := range r.Box.Air.Verdicts {
			if v.Code != "ok" {
				words = append(words, r.Engine+" "+strings.ToUpper(v.Code))
			}
		}
	}
	return words
}

// refusalWord says in two or three words why a layout is refused.
func refusalWord(f silencer.Finding) string {
	return strings.ToLower(strings.ReplaceAll(f.Code, "-", " ")) + ";"
}

func distinct(words []string) []string {
	seen := map[string]bool{}
	var out []string
	for _, w := range words {
		if !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	if n := len(out); n > 0 {
		out[n-1] = strings.TrimSuffix(out[n-1], ";")
	}
	return out
}

// rules names the route that carries most of the A-weighted energy, with its share.
func rules(h *path.Heard) string {
	if len(h.Routes) == 0 || h.DBA() < 0 {
		return "-"
	}
	r := h.Routes[0]
	share := math.Pow(10, (r.DBA()-h.DBA())/10)
	return fmt.Sprintf("%s (%.0f %%)", routeName(r), 100*share)
}

// routeName is a route in words, without saying the emitter twice.
func routeName(r path.Route) string {
	first, rest, more := strings.Cut(r.Route, " > ")
	if strings.HasSuffix(r.Source, " "+first) && more {
		return r.Source + ": " + rest
	}
	return r.Source + ": " + r.Route
}

func (c *common) price(b *path.Boat, p *float64) string {
	if p == nil {
		return "unknown"
	}
	return strings.TrimSpace(fmt.Sprintf("%.0f %s", *p, b.Currency))
}

// dutyText says at what duty the engines run.
func (w *worked) dutyText() string {
	var parts []string
	if len(w.predictions) > 0 {
		for _, r := range w.predictions[0].Exhausts {
			d := r.Source.Duty
			parts = append(parts, fmt.Sprintf("%s at %.0f rpm and %.3g kW", r.Engine, d.Speed, d.Power/1e3))
		}
	}
	if len(parts) == 0 {
		return "no engine running"
	}
	return strings.Join(parts, ", ")
}

func (c *common) printRefusals(w *worked) {
	all := w.refusals(c.local)
	if len(all) == 0 {
		return
	}
	fmt.Fprint(c.out, "\nRefused, whatever the level:\n")
	for _, f := range all {
		writeRefusal(c.out, f)
	}
}

func writeRefusal(out io.Writer, f sharedFinding) {
	where := f.where
	if where == "" {
		where = "every layout"
	}
	paragraph(out, "  - ", where+": "+sentence(f.Text)+" "+sentence(f.Action))
}

// printCautions prints each caution once, most dangerous first, with the layouts it concerns.
func (c *common) printCautions(w *worked) {
	all := w.cautions(3, c.local)
	if len(all) == 0 {
		return
	}
	fmt.Fprint(c.out, "\nCautions:\n")
	notes := 0
	for _, f := range all {
		if f.Severity == silencer.Note {
			notes++
			continue
		}
		writeCaution(c.out, f)
	}
	if notes > 0 {
		fmt.Fprintf(c.out, "  and %d notes: hushwake check lists them with every source\n", notes)
	}
}

func writeCaution(out io.Writer, f sharedFinding) {
	text := sentence(f.Text) + " " + sentence(f.Action)
	if f.where != "" {
		text += " [" + f.where + "]"
	}
	paragraph(out, fmt.Sprintf("  %-8s ", f.Severity), text)
}

// sentence begins with a capital letter and ends with a stop.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[:1])) + string(r[1:])
	if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "!") && !strings.HasSuffix(s, "?") {
		s += "."
	}
	return s
}
