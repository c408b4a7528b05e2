package advice

import (
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/panel"
	"hushwake/silencer"
	"hushwake/source/said"
)

// ruling are the single changes that act on the loudest route to each seat, each once.
func ruling(l *path.Layout, p *path.Prediction, seats int) (all []alteration) {
	seen := map[string]bool{}
	for j := range seats {
		routes := p.Listeners[j].Routes
		if len(routes) == 0 {
			continue
		}
		for _, a := range against(l, p, routes[0]) {
			if !seen[a.text] {
				seen[a.text] = true
				all = append(all, a)
			}
		}
	}
	return all
}

// against are the changes to what a route leaves its source by, and to the walls that it passes.
func against(l *path.Layout, p *path.Prediction, r path.Route) (all []alteration) {
	words := strings.Split(r.Route, " > ")
	switch r.Way {
	case path.ByLineWall:
		all = lineWall(l, p, r.Engine, strings.TrimPrefix(words[0], "wall of "))
	case path.ByAir, path.ByBoxOpening:
		all = boxWalls(l, r)
	case path.ByIntake:
		all = quietIntake(l, r.Engine)
	}
	for i := range l.Partitions {
		b := l.Partitions[i].BuildUp
		cloth := slices.ContainsFunc(b, func(l panel.Layer) bool { return l.Material == "canvas" })
		if slices.Contains(words[1:], l.Partitions[i].Name) && !cloth {
			to := *l
			to.Partitions = slices.Clone(l.Partitions)
			text, heavier := heavierPanel(b)
			to.Partitions[i].BuildUp = heavier
			all = append(all, alteration{text: text + label(l.Partitions[i]), to: &to})
		}
	}
	return all
}

// lineWall wraps one part of a line, or makes its wall heavier.
func lineWall(l *path.Layout, p *path.Prediction, engine, part string) (all []alteration) {
	x := slices.IndexFunc(l.Exhausts, func(x path.Exhaust) bool { return x.Engine == engine })
	r := slices.IndexFunc(p.Exhausts, func(r path.ExhaustResult) bool { return r.Engine == engine })
	if x < 0 || r < 0 {
		return nil
	}
	for _, row := range p.Exhausts[r].Running.Rows {
		if row.Name != part || row.Index < 1 {
			continue
		}
		elements := l.Exhausts[x].Line.Elements
		with := func(e silencer.Element) *path.Layout {
			line := slices.Clone(elements)
			line[row.Index-1] = e
			return withLine(l, x, line)
		}
		e := elements[row.Index-1]
		if e.Base().Lagging.Thickness == 0 {
			all = append(all, alteration{text: said.Textf("{50 mm} of mineral wool with a dense cover round ") + part, to: with(silencer.Lagged(e, wool))})
		}
		if heavy, ok := silencer.Heavier(e); ok {
			all = append(all, alteration{text: "a wall twice as thick for " + part, to: with(heavy)})
		}
	}
	return all
}

// boxWalls puts a mat into the walls of the box that the engine of a route stands in, or longer ducts before its holes.
func boxWalls(l *path.Layout, r path.Route) (all []alteration) {
	e, ok := l.Engine(r.Engine)
	if !ok || e.Enclosure == "" {
		return nil
	}
	for i := range l.Enclosures {
		if l.Enclosures[i].Name != e.Enclosure {
			continue
		}
		to := *l
		to.Enclosures = slices.Clone(l.Enclosures)
		enc := &to.Enclosures[i]
		if r.Way == path.ByAir {
			text, heavier := heavierPanel(enc.BuildUp)
			enc.BuildUp = heavier
			return []alteration{{text: text + "the walls of " + enc.Name, to: &to}}
		}
		enc.Openings = slices.Clone(enc.Openings)
		ducted := false
		for k := range enc.Openings {
			if d := enc.Openings[k].Duct; d != nil && d.Measured == nil {
				longer := *d
				longer.Length += moreDuct
				enc.Openings[k].Duct, ducted = &longer, true
			}
		}
		if ducted {
			return []alteration{{text: said.Textf("{0.6 m} more of every duct of ") + enc.Name, to: &to}}
		}
	}
	return nil
}

// moreDuct is how much longer ducts are tried, m.
const moreDuct = 0.6

// quietIntake puts a silencer into the air pipe of an engine in a box.
func quietIntake(l *path.Layout, engine string) []alteration {
	e, _ := l.Engine(engine)
	to := *l
	to.Enclosures = slices.Clone(l.Enclosures)
	for i := range to.Enclosures {
		if enc := &to.Enclosures[i]; e != nil && enc.Name == e.Enclosure {
			loss := moreBands
			if d := enc.AirMouth.Duct; d != nil && d.Measured != nil {
				loss = loss.Plus(*d.Measured)
			}
			enc.AirMouth.Duct = &path.LinedDuct{Measured: &loss}
			return []alteration{{text: "a silencer in the air pipe of " + engine + " that takes 10 dB out of every octave", to: &to}}
		}
	}
	return nil
}

// panes are materials that one looks through.
var panes = []string{"glass", "laminated glass", "acrylic", "polycarbonate"}

// heavierPanel is a build-up with foam and a mat on it, or for panes a second one behind it, with the words for it.
func heavierPanel(b panel.BuildUp) (string, panel.BuildUp) {
	if slices.ContainsFunc(b, func(l panel.Layer) bool { return slices.Contains(panes, l.Material) }) {
		gap := panel.Layer{Text: "50 mm air gap", Material: "air", Thickness: 0.05}
		return said.Textf("a second pane {50 mm} behind "), append(append(slices.Clone(b), gap), b...)
	}
	foam, mat := panel.Layer{Text: "25 mm foam", Material: "foam", Thickness: 0.025}, panel.Layer{Text: "5 kg/m2 limp mat", Material: "limp mat", Mass: 5}
	return said.Textf("{25 mm} foam and a {5 kg/m2} mat on "), append(slices.Clone(b), foam, mat)
}
