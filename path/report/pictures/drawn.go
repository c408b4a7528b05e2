package pictures

import (
	"cmp"
	"math"
	"slices"

	"hushwake/charts/picture"
	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/source/spectrum"
)

// Drawn is a comparison as pictures show it.
type Drawn struct{ *report.Comparison }

// Of draws a comparison.
func Of(w *report.Comparison) Drawn { return Drawn{w} }

// LevelAt is the level of a layout at a listener, by their places in Predictions and Listeners.
func (w Drawn) LevelAt(i, j int) picture.Level {
	s := w.Spread.Layouts[i].Listeners[j]
	if math.IsNaN(s.Level) {
		return picture.Level{Low: s.Low, High: s.High, Unjudged: true}
	}
	return picture.Level{DBA: heardLevel(s.Level), Low: heardLevel(s.Low), High: heardLevel(s.High)}
}

// heardLevel keeps silence a number that a picture can place.
func heardLevel(db float64) float64 { return math.Max(db, picture.Silent) }

// nowAt is the level of today's layout at a listener, nil where it is this one.
func (w Drawn) nowAt(i, j int) *float64 {
	n := w.Now()
	if n < 0 || n == i || w.Asked(n) {
		return nil
	}
	return &w.Spread.Layouts[n].Listeners[j].Level
}

// drawnAs is a way as pictures know it: an engine's air pipe ends in an opening of its box.
func drawnAs(w path.Way) picture.Way {
	if w == path.ByIntake {
		return picture.BoxOpening
	}
	return picture.Way(w)
}

// rungs are the ways from each source to a listener, loudest first.
func rungs(h *path.Heard, u form.Units) (out []picture.Rung) {
	type key struct {
		source string
		way    path.Way
	}
	at, bands := map[key]int{}, []spectrum.Bands{}
	for _, r := range h.Routes {
		k := key{r.Source, r.Way}
		n, ok := at[k]
		if !ok {
			n = len(out)
			at[k] = n
			out, bands = append(out, picture.Rung{Way: drawnAs(r.Way), Source: r.Source}), append(bands, spectrum.Fill(spectrum.Silent))
		}
		bands[n] = spectrum.SumBands(bands[n], r.Weighted())
		out[n].Routes = append(out[n].Routes, picture.Route{Name: u.Local(r.Route), Level: heardLevel(r.DBA())})
	}
	for n := range out {
		out[n].Level = heardLevel(bands[n].Total())
	}
	slices.SortStableFunc(out, func(a, b picture.Rung) int { return cmp.Compare(b.Level, a.Level) })
	return out
}

func engineOf(h *path.Heard, r picture.Rung) string {
	for _, x := range h.Routes {
		if x.Source == r.Source && drawnAs(x.Way) == r.Way {
			return x.Engine
		}
	}
	return ""
}
