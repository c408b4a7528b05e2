package path

import (
	"math"
	"slices"
	"sort"
	"strings"

	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source/said"
)

// findings gathers refusals and cautions of all lines and of the layout as a whole.
func findings(b *Boat, p *Prediction) []safety.Finding {
	var all []safety.Finding
	for i := range p.Exhausts {
		x, _ := p.Layout.Exhaust(p.Exhausts[i].Engine)
		for _, f := range safety.Findings(&x.Line, Circumstances(b, p, &p.Exhausts[i])) {
			all = append(all, p.OfLine(f, i))
		}
		if x.Line.Wet() {
			all = append(all, WetUnproven)
		}
		if f, ok := costFinding(b, &p.Exhausts[i]); ok {
			all = append(all, f)
		}
		if f, ok := heatFinding(b, p, &p.Exhausts[i]); ok {
			all = append(all, p.OfLine(f, i))
		}
	}
	all = append(all, hearing(p)...)
	all = append(all, boxFindings(p)...)
	return SortFindings(all)
}

// ofTheBoat are codes of what concerns no line more than another, and is said once.
var ofTheBoat = map[string]bool{safety.Monoxide: true, safety.CodeLicensed: true}

// OfLine is what is said or asked of a line with the engine that it belongs to, where there are others: before it, or behind the
// parts of the line that it begins with.
func (p *Prediction) OfLine(f safety.Finding, exhaust int) safety.Finding {
	if len(p.Exhausts) < 2 || ofTheBoat[f.Code] {
		return f
	}
	r := &p.Exhausts[exhaust]
	front, rest, ok := strings.Cut(f.Text, ": ")
	front, _, _ = strings.Cut(front, " and ") // "and 3 more"
	for _, name := range strings.Split(front, ", ") {
		ok = ok && slices.ContainsFunc(r.Rated.Rows, func(row silencer.Row) bool { return strings.EqualFold(row.Name, name) })
	}
	if ok {
		f.Text = strings.TrimSuffix(f.Text, rest) + "on the line of " + r.Engine + ", " + strings.ToLower(rest[:1]) + rest[1:]
	} else {
		f.Text = r.Engine + ": " + f.Text
	}
	return f
}

// Refuses tells whether anything found about a prediction refuses it, but for what others found.
func Refuses(b *Boat, p *Prediction) bool {
	return slices.ContainsFunc(findings(b, p), func(f safety.Finding) bool { return f.Refuse })
}

// Rejudge finds anew what is said about a prediction whose levels or back pressures were corrected from
// those of was; what others found stays.
func Rejudge(b *Boat, was *Prediction, p *Prediction) {
	of := map[safety.Finding]bool{}
	for _, f := range findings(b, was) {
		of[f] = true
	}
	all := findings(b, p)
	for _, f := range p.Findings {
		if !of[f] {
			all = append(all, f)
		}
	}
	p.Findings, p.Refused = SortFindings(all), false
	for _, f := range p.Findings {
		p.Refused = p.Refused || f.Refuse
	}
}

// WetUnproven is said of every wet exhaust.
var WetUnproven = safety.Finding{Code: "WET-UNPROVEN", Severity: safety.Note,
	Text:   "No boat has been measured wet and dry in octaves: what water does here is physics with a band, not a measurement.",
	Action: "a reading in the file, taken with the engine running, replaces most of it ('hushwake survey' says how to take one)",
	Source: "judgement; makers and owners report more than this"}

// Circumstances tells a line what it cannot know by itself.
func Circumstances(b *Boat, p *Prediction, r *ExhaustResult) safety.Circumstances {
	e, _ := p.Layout.Engine(r.Engine)
	x, _ := p.Layout.Exhaust(r.Engine)
	_, rated := Feeds(b, *r)
	out := x.Line.Outlet
	c := safety.Circumstances{
		Engine: e.Engine, Limit: e.Limit, Rated: r.Rated, Running: r.Running, RatedFeed: rated, Pipes: r.Source.Pipes,
		Heel: b.Heel, OutletOffset: out.At[1], Hatch: b.Hatch, Generator: e.Generator != nil,
		SleepsAboard: sleepsAboard(b),
		LowLoad:      r.Source.Duty.Power < 0.35*e.Rated.Power,
	}
	if x.Promised != nil && !math.IsInf(x.Promised.High, 1) {
		c.Promised, c.PromisedLeast = &x.Promised.High, x.Promised.Low
	}
	height := out.Height()
	c.OutletHeight = &height
	if e.AtStated {
		z := e.At[2]
		c.ManifoldHeight, c.ManifoldOffset = &z, e.At[1]
	}
	c.NearestOpening, c.OpeningName = nearestOpening(p.Layout, Point(out.At))
	c.NearestPerson, c.PersonName = nearestPerson(b, Point(out.At))
	return c
}

// sleepsAboard guesses from names whether somebody sleeps aboard.
func sleepsAboard(b *Boat) bool {
	for _, l := range b.Listeners {
		if l.Probe {
			continue
		}
		name := strings.ToLower(l.Name + " " + l.In)
		for _, w := range []string{"cabin", "berth", "bunk", "pillow", "bed"} {
			if strings.Contains(name, w) {
				return true
			}
		}
	}
	return false
}

func nearestOpening(l *Layout, outlet Point) (*float64, string) {
	best, name := math.Inf(1), ""
	for i := range l.Partitions {
		p := &l.Partitions[i]
		if _, outer := p.Other(Outside); !outer || p.OpenArea <= 0 || !p.AtStated || p.Usual != nil {
			continue
		}
		if d := Distance(p.At, outlet, 0); d < best {
			best, name = d, p.Label()
		}
	}
	if name == "" {
		return nil, ""
	}
	return &best, name
}

// nearestPerson is the seat in the open that the outlet is nearest to; what reaches one indoors comes by an opening.
func nearestPerson(b *Boat, outlet Point) (*float64, string) {
	best, name := math.Inf(1), ""
	for _, l := range b.Listeners {
		if d := Distance(l.At, outlet, 0); d < best && !l.Probe && (l.In == "" || l.In == Outside) {
			best, name = d, l.Name
		}
	}
	if name == "" {
		return nil, ""
	}
	return &best, name
}

// severity ranks findings, most dangerous first.
var severity = map[string]int{"danger": 0, "warning": 1, "caution": 2, "note": 3}

// SortFindings puts refusals and dangers first and drops repeats.
func SortFindings(all []safety.Finding) []safety.Finding {
	sort.SliceStable(all, func(i, j int) bool {
		a, b := all[i], all[j]
		if severity[a.Severity] != severity[b.Severity] {
			return severity[a.Severity] < severity[b.Severity]
		}
		return a.Refuse && !b.Refuse
	})
	seen := map[string]bool{}
	out := all[:0:0]
	for _, f := range all {
		key := f.Code + "/" + f.Element + "/" + said.Plain(f.Text)
		if !seen[key] {
			seen[key] = true
			out = append(out, f)
		}
	}
	return out
}

func upper(code string) string { return strings.ToUpper(strings.ReplaceAll(code, " ", "-")) }
