package report

import (
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/scene"
	"hushwake/path/study/advice"
	"hushwake/path/study/offers"
	"hushwake/path/study/readings"
)

// Verdicts on a layout.
const (
	VerdictOK      = "ok"
	VerdictOver    = "over limit"   // a limit of the file, by the median or by a measured back pressure
	VerdictMend    = "mend the box" // an engine starves or cooks in its box
	VerdictAsk     = "ask first"    // its sheets don't say enough to judge it
	VerdictRefused = "refused"
)

// asked is what has to be asked of a layout, and the span of its levels from the best to the worst
// reading of its sheets, by listener.
type asked struct {
	questions []string
	low, high []float64
}

// askFirst finds the layouts that can't be judged: they are neither refused nor ranked.
func (w *Comparison) askFirst() error {
	w.asks = make([]asked, len(w.Predictions))
	for i := range w.Predictions {
		p := &w.Predictions[i]
		if w.asks[i].questions = form.Unique(p.Questions); len(p.Questions) == 0 {
			continue
		}
		best, worst := offers.BestAndWorst(p.Layout, w.Boat.Quotes)
		for k, l := range []*path.Layout{best, worst} {
			read, err := scene.Predict(w.Boat, l)
			if err != nil {
				return err
			}
			if read, err = w.Known.Quick(read); err != nil {
				return &form.Failure{Err: err}
			}
			for _, h := range read.Listeners {
				if k == 0 {
					w.asks[i].low = append(w.asks[i].low, h.DBA())
				} else {
					w.asks[i].high = append(w.asks[i].high, h.DBA())
				}
			}
		}
	}
	return nil
}

// spanAsked puts the span of what the sheet allows in place of the band: never less than that.
func (w *Comparison) spanAsked() {
	for i, a := range w.asks {
		if len(a.questions) == 0 {
			continue
		}
		for j := range w.Spread.Layouts[i].Listeners {
			s := &w.Spread.Layouts[i].Listeners[j]
			s.Low, s.High = min(s.Low, a.low[j], a.high[j]), max(s.High, a.low[j], a.high[j])
			s.Level, s.OverLimit, s.Quietest = math.NaN(), nil, 0
		}
	}
}

// Asked says whether a layout has to be asked about before it can be judged.
func (w *Comparison) Asked(layout int) bool {
	return len(w.asks) > layout && len(w.asks[layout].questions) > 0
}

// Verdict is the word for a layout.
func (w *Comparison) Verdict(layout int) string {
	p := &w.Predictions[layout]
	switch {
	case readings.OverMeasured(p):
		return VerdictOver
	case p.Refused:
		return VerdictRefused
	case w.Asked(layout):
		return VerdictAsk
	case w.overLimit(layout):
		return VerdictOver
	case boxHarms(p):
		return VerdictMend
	}
	return VerdictOK
}

// overLimit says whether a stated limit is exceeded by the median of a layout.
func (w *Comparison) overLimit(i int) bool {
	for j, r := range w.Predictions[i].Exhausts {
		if r.Limit != nil && w.Spread.Layouts[i].Exhausts[j].Rated > *r.Limit {
			return true
		}
	}
	return len(w.tooLoudAt(i)) > 0
}

// tooLoudAt names the places whose limit the median of a layout exceeds.
func (w *Comparison) tooLoudAt(i int) (names []string) {
	for j, h := range w.Predictions[i].Listeners {
		if h.Listener.Limit != nil && w.Spread.Layouts[i].Listeners[j].Level > *h.Listener.Limit {
			names = append(names, h.Listener.Name)
		}
	}
	return names
}

// limited says whether the file states a limit of the level anywhere.
func (w *Comparison) limited() bool {
	return slices.ContainsFunc(w.Boat.Listeners, func(l path.Listener) bool { return l.Limit != nil })
}

// Verdicts of a table on the limit of the back pressure, and on those of the levels.
const (
	pressureKept = "pressure within limit"
	tooLoud      = "over limit at "
)

// OverLimit says whether a stated limit is exceeded by the median, or by a measured back pressure, of any layout that can be judged.
func (w *Comparison) OverLimit() bool {
	for i := range w.Predictions {
		if !w.Asked(i) && (w.overLimit(i) || readings.OverMeasured(&w.Predictions[i])) {
			return true
		}
	}
	return false
}

// verdict is the mark in words, for a table.
func (w *Comparison) verdict(layout int) string {
	p := &w.Predictions[layout]
	switch {
	case w.Asked(layout) && p.Layout.Slots != nil:
		return "ASK FIRST: open slots"
	case w.Asked(layout):
		return "ASK FIRST"
	case readings.OverMeasured(p):
		return "OVER LIMIT (measured)"
	case !p.Refused:
		words := append(boxVerdicts(p), w.pressureVerdict(layout))
		if over := w.tooLoudAt(layout); len(over) > 0 {
			words = append(words, tooLoud+advice.Listed(over))
		}
		return strings.Join(words, "; ")
	}
	return "REFUSED: " + refusedFor(p)
}

// refusedFor names why a layout is refused by the codes of its findings, in words.
func refusedFor(p *path.Prediction) string {
	var words []string
	for _, f := range p.Findings {
		if f.Refuse {
			words = append(words, strings.ToLower(strings.ReplaceAll(f.Code, "-", " ")))
		}
	}
	return strings.Join(form.Unique(words), "; ")
}
