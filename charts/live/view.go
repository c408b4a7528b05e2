package live

import (
	"slices"

	"hushwake/path"
	session "hushwake/path/live"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/pictures"
)

type (
	prediction = path.Prediction
	listener   = path.Listener
)

// view is a state that is drawn.
type view struct {
	*session.Answer
	w      *report.Comparison // nil = nothing could be predicted yet
	u      form.Units
	i, j   int             // the chosen layout, -1 = it has yet to be worked out, and listener in w
	slips  []session.Slip  // by control and without one
	taken  map[string]bool // places whose slips stand beside their control
	opened map[string]bool // things all of whose controls are shown
}

// mark is the state of figures in words and as a class: nothing old looks new.
func (v *view) mark() (class, words string) {
	switch {
	case v.w == nil:
		return "none", "no figures yet"
	case !v.Fresh():
		return "old", "of the text before the last change"
	case v.Figures.Form == session.Quick:
		return "quick", "quick"
	}
	return "full", "full"
}

// judged tells whether all layouts are worked out: of a part of them none is the best.
func (v *view) judged() bool { return len(v.Figures.Waiting) == 0 }

// layoutNames are those worked out and those that wait.
func (v *view) layoutNames() (names []string) {
	if v.w == nil {
		return nil
	}
	for _, l := range v.w.Boat.Layouts {
		names = append(names, l.Name)
	}
	for _, n := range v.Figures.Waiting {
		if !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return names
}

func (v *view) slipsAt(at string) (out []session.Slip) {
	for _, s := range v.slips {
		if s.At == at {
			out = append(out, s)
		}
	}
	return out
}

// unplaced are the slips that stand beside no control.
func (v *view) unplaced() []session.Slip {
	return slices.DeleteFunc(slices.Clone(v.slips), func(s session.Slip) bool { return v.taken[s.At] })
}

// drawn are the pictures of the layouts.
func (v *view) drawn() pictures.Drawn { return pictures.Of(v.w) }
