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
)

// chosenRows is how much of the front a table shows.
const chosenRows = 12

// Text shows what to take, the front by groups that sound the same, and what was left out.
func (d *Choice) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s: what to put into its slots for the quietest %s (%s tried, %s)", form.Quote(d.Layout), d.Listener, choices(d.Tried), d.extent())
	t.Blank()
	shown := d.shown()
	t.Table(d.table(shown, u))
	t.Blank()
	t.Say("", "%s", d.best(u))
	for _, i := range shown {
		if text := d.explain(i, u); text != "" && &d.Front[i] != d.Best {
			t.Say(fmt.Sprintf("%d ", i+1), "%s", text)
		}
	}
	if len(d.Front) > 0 {
		t.Blank()
		t.Say("", "The front holds what nothing else beats in level, back pressure, length and price at once: %d of %d are shown, json and csv give all. "+
			"A price that is not stated beats none. \"over band\" is kept to in eight of ten of speeds 10 %% and gas temperatures 15 %% to either side.", len(shown), len(d.Front))
	}
	for _, n := range d.Notes {
		t.Say("note: ", "%s", u.Local(n))
	}
	return t
}

func choices(n int) string {
	if n == 1 {
		return "1 choice"
	}
	return fmt.Sprintf("%d choices", n)
}

// more counts others.
func more(n int) string {
	if n == 1 {
		return "1 other"
	}
	return fmt.Sprintf("%d others", n)
}

// extent says how much of all choices was tried.
func (d *Choice) extent() string {
	switch {
	case d.Cancelled:
		return "stopped early"
	case d.Exhaustive:
		return "all there are"
	}
	return "searched"
}

// shown are the named choices, then the first of each group that sounds the same, in the order of the front.
func (d *Choice) shown() (at []int) {
	for _, named := range []bool{true, false} {
		for i := range d.Front {
			c := &d.Front[i]
			first := len(c.EqualTo) == 0 || i < slices.Min(c.EqualTo)
			if is := len(c.Names) > 0 || c == d.Best; is == named && (named || first) && len(at) < chosenRows {
				at = append(at, i)
			}
		}
	}
	slices.Sort(at)
	return at
}

func (d *Choice) table(shown []int, u form.Units) *form.Table {
	t := form.NewTable("", ">dB(A)", ">over band", ">back pressure", ">length", ">price", "choice")
	for _, i := range shown {
		c := &d.Front[i]
		level := form.LevelText(math.NaN(), form.Deref(c.LowDBA), form.Deref(c.HighDBA))
		if c.LevelDBA != nil {
			level = form.LevelText(*c.LevelDBA, *c.LowDBA, *c.HighDBA)
		}
		number := fmt.Sprint(i + 1)
		if c == d.Best {
			number += " taken"
		}
		t.Add(number, level, fmt.Sprintf("%.1f", form.Deref(c.BandDBA)), u.Show(form.Deref(c.Pressure)*1e3, quantity.Pressure),
			u.Show(form.Deref(c.LengthM), quantity.Length), d.whole(c), d.words(c))
	}
	return t
}

func (d *Choice) price(p float64) string {
	return strings.TrimSpace(fmt.Sprintf("%.0f %s", p, d.currency))
}

// whole is the price of a choice, or from where on it lies.
func (d *Choice) whole(c *Chose) string {
	if c.Price == nil {
		return "from " + d.price(form.Deref(c.Stated))
	}
	return d.price(*c.Price)
}

// best says what to take.
func (d *Choice) best(u form.Units) string {
	switch {
	case d.Best == nil && d.Cancelled && d.Tried == d.Pruned:
		return "The search was stopped before it found a choice that keeps the budget."
	case len(d.Front) == 0:
		return "No choice keeps the budget and the engine's limit: give it more back pressure, length or diameter, or other options."
	case d.Best == nil:
		return "Ask first: every choice of the front has an open question."
	}
	text := fmt.Sprintf("Take %s: %.1f dB(A) over the band at %s, at %s; at running in eight cases of ten between %s and %s.", d.words(d.Best), form.Deref(d.Best.BandDBA),
		d.Listener, u.Show(form.Deref(d.Best.Pressure)*1e3, quantity.Pressure), form.Whole(form.Deref(d.Best.LowDBA)), form.Whole(form.Deref(d.Best.HighDBA)))
	if n := len(d.Best.EqualTo); n > 0 {
		text += fmt.Sprintf(" To the ear it is the same as %s of the front, ", more(n))
		if d.Best.Price == nil {
			return text + "and as a part of its price is not stated none can be called cheaper."
		}
		text += "none of them known to be cheaper."
	}
	return text
}

// explain sets a choice against the one taken, by the levels over the band, in one sentence.
func (d *Choice) explain(i int, u form.Units) string {
	c := &d.Front[i]
	var text []string
	if len(c.Names) > 0 {
		text = append(text, "the "+advice.Listed(c.Names)+" of the front")
	}
	best := d.reference()
	if best == nil || best == c {
		return joined(text)
	}
	same := ""
	if k := slices.Index(c.EqualTo, d.place(best)); k >= 0 {
		same = ", which nobody hears"
	}
	text = append(text, fmt.Sprintf("against what is taken %s over the band%s", louder(form.Deref(c.BandDBA)-form.Deref(best.BandDBA)), same))
	further := func(v, w float64, dim quantity.Dim, more, less string) {
		if d := v - w; u.Show(math.Abs(d), dim) != u.Show(0, dim) {
			word := more
			if d < 0 {
				word = less
			}
			text = append(text, u.Show(math.Abs(d), dim)+" "+word)
		}
	}
	further(form.Deref(c.Pressure)*1e3, form.Deref(best.Pressure)*1e3, quantity.Pressure, "more back pressure", "less back pressure")
	further(form.Deref(c.LengthM), form.Deref(best.LengthM), quantity.Length, "longer", "shorter")
	switch {
	case c.Price == nil:
		text = append(text, d.whole(c)+", a part unpriced")
	case best.Price != nil && *c.Price != *best.Price:
		word := "dearer"
		if *c.Price < *best.Price {
			word = "cheaper"
		}
		text = append(text, d.price(math.Abs(*c.Price-*best.Price))+" "+word)
	}
	if len(c.Questions) > 0 {
		text = append(text, "ask first: "+c.Questions[0])
	}
	if n := len(c.EqualTo); n > 0 && same == "" {
		text = append(text, "to the ear the same as "+more(n)+" of the front")
	}
	return joined(text)
}

// reference is the best, or the first of the front where all have open questions.
func (d *Choice) reference() *Chose {
	if i := slices.IndexFunc(d.Front, func(c Chose) bool { return len(c.Questions) == 0 }); i >= 0 {
		return &d.Front[i]
	}
	return nil
}

func (d *Choice) place(c *Chose) int {
	return slices.IndexFunc(d.Front, func(o Chose) bool { return maps.Equal(o.Choice, c.Choice) })
}

func louder(db float64) string {
	if db >= 0 {
		return fmt.Sprintf("%.1f dB louder", db)
	}
	return fmt.Sprintf("%.1f dB quieter", -db)
}

func joined(text []string) string {
	if len(text) == 0 {
		return ""
	}
	return form.Sentence(strings.Join(text, ", "))
}

// noLonger is by how much all else may lie under the quietest before the line stops ruling, dB: a fifth of the energy.
const noLonger = 1.0

// notes say what was left out, and where the exhaust no longer rules.
func (d *Choice) notes() (all []string) {
	r := d.result
	var out []string
	for _, why := range slices.SortedFunc(maps.Keys(r.Reasons), func(a, b string) int {
		return slices.Compare([]int{-r.Reasons[a], strings.Compare(a, b)}, []int{-r.Reasons[b], 0})
	}) {
		out = append(out, fmt.Sprintf("%d %s", r.Reasons[why], why))
	}
	if len(out) > 0 {
		all = append(all, fmt.Sprintf("%d of %d were left out before their sound was worked out: %s", r.Pruned, r.Tried, strings.Join(out, ", ")))
	}
	if r.Refused > 0 {
		all = append(all, fmt.Sprintf("%d of those predicted in full were refused there and are not on the front", r.Refused))
	}
	if r.Unpriced {
		all = append(all, "of some choices a part has no price: what is stated of them keeps the price budget, the rest may not")
	}
	if best := r.Best; best != nil && best.Others > best.Level-noLonger {
		all = append(all, fmt.Sprintf("the exhaust no longer rules at %s: of %.1f dB(A) all else leaves %.1f, whatever stands in the slots", d.Listener, best.Level, best.Others))
	}
	return append(all, d.left...)
}
