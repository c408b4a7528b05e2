package path

import (
	"fmt"
	"sort"
	"strings"

	"hushwake/path/room"
	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/said"
)

// Figures of the heat that a line gives to a space.
const (
	heatRise   = 15.0  // K over the outside that the air may warm by (common practice)
	heatToTell = 100.0 // W, under which a space is not named
	heatToCare = 2e3   // W into a space, from which it is a caution
)

// HeatTo sums what the walls of an exhaust, all its pipes, give to each space at rated, W; what goes outside is left out. A part without
// a stated space counts where it is heard: in those of the nearest parts before and after it that state theirs, in each with all its heat.
func HeatTo(e *Engine, r *ExhaustResult) map[string]float64 {
	return heatTo(e, &r.Rated, r.RatedSource.Pipes)
}

// heatTo is HeatTo at the duty of a march.
func heatTo(e *Engine, m *silencer.Marched, pipes source.Pipes) map[string]float64 {
	out := map[string]float64{}
	var rows []silencer.Row
	m.Each(func(row silencer.Row) { rows = append(rows, row) })
	for i, row := range rows {
		for _, place := range PlacesAlong(len(rows), func(k int) string { return rows[k].In }, i, e.In) {
			if place != "" && place != Outside {
				out[place] += pipes.All(row.HeatLoss)
			}
		}
	}
	return out
}

// heatFinding says what the line's walls give to each space and the air that carries it off.
func heatFinding(b *Boat, p *Prediction, r *ExhaustResult) (safety.Finding, bool) {
	e, ok := p.Layout.Engine(r.Engine)
	if !ok {
		return safety.Finding{}, false
	}
	density := b.Air.Pressure / (287.05 * b.Air.Temperature)
	var parts []string
	severity := safety.Note
	heat := HeatTo(e, r)
	for _, place := range sortedNames(heat) {
		w := heat[place]
		if w < heatToTell {
			continue
		}
		if w >= heatToCare {
			severity = safety.Caution
		}
		parts = append(parts, said.Textf("{%.1f kW of heat} to %s ({%.2f m3/s} of air warmed by {%.0f K})", w/1e3, place, room.AirFlow(w, heatRise, density), heatRise))
	}
	if len(parts) == 0 {
		return safety.Finding{}, false
	}
	lines := "this line"
	if n := r.RatedSource.Pipes; n > 1 {
		lines = fmt.Sprintf("these %d lines", n)
	}
	text := fmt.Sprintf("The walls of %s give at rated %s.", lines, strings.Join(parts, ", "))
	return safety.Finding{Code: "HEAT-TO-SPACES", Severity: severity, Element: r.Engine, Text: text,
		Action: said.Textf("count it into the ventilation, or lag the line: {50 mm} take off about nine tenths"),
		Source: "Gnielinski inside, Churchill and Chu outside, radiation; air by V = H/(rho cp dT)"}, true
}

func sortedNames(m map[string]float64) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// PlacesAlong are where part i of n of a line may run: in the stated space, else in those of the nearest parts before and after it that
// state theirs; in the engine's where none does.
func PlacesAlong(n int, in func(k int) string, i int, engine string) []string {
	stated := func(to, by int, otherwise string) string {
		for k := i; k != to; k += by {
			if in(k) != "" {
				return in(k)
			}
		}
		return otherwise
	}
	before := stated(-1, -1, engine)
	if after := stated(n, 1, before); after != before {
		return []string{before, after}
	}
	return []string{before}
}
