package live

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
	session "hushwake/path/live"
	"hushwake/path/report"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// fake is a small session of few draws, for tests of what a page shows.
type fake struct {
	name        string
	saved, text []byte
	past, next  [][]byte
	a           session.Answer
	known       map[string]*session.Figures
}

func newFake(name string, text []byte) *fake {
	return &fake{name: name, saved: text, text: text, known: map[string]*session.Figures{}}
}

func (f *fake) Do(m session.Message) session.Answer {
	var err error
	is := f.text
	f.a.Diff = nil
	switch m.Op {
	case "set":
		is, err = edit.Set(f.text, m.At, m.To)
	case "unknown":
		is, err = edit.Unknown(f.text, m.At)
	case "remove":
		is, err = edit.Remove(f.text, m.At)
	case "add":
		is, err = edit.Add(f.text, m.At, m.To)
	case "insert":
		is, err = edit.Insert(f.text, m.At, m.To)
	case "copy-layout":
		is, err = edit.CopyLayout(f.text, m.Layout, m.To)
		f.a.Layout = m.To
	case "note":
		is, err = edit.Add(f.text, "/readings", "{listener: "+edit.Quote(m.Listener)+", layout: "+edit.Quote(m.Layout)+", level: "+m.To+", plus_minus: "+m.PlusMinus+"}")
	case "layout":
		f.a.Layout = m.To
	case "listener":
		f.a.Listener = m.To
	case "undo":
		if n := len(f.past); n > 0 {
			f.next, f.text, f.past = append(f.next, f.text), f.past[n-1], f.past[:n-1]
			is = f.text
		}
	case "diff":
		f.a.Diff = edit.Diff(f.saved, f.text)
	case "saved":
		f.saved = f.text
	}
	if err == nil && string(is) != string(f.text) {
		f.past, f.text = append(f.past, f.text), is
	}
	return f.show(m, err)
}

func (f *fake) show(m session.Message, err error) session.Answer {
	sum := sha256.Sum256(f.text)
	a := &f.a
	a.Stamp, a.Text, a.Errors, a.Left = hex.EncodeToString(sum[:]), f.text, nil, 1
	if err != nil {
		a.Errors = []session.Slip{{At: m.At, Message: err.Error()}}
	}
	if b, err := boatfile.Load(f.name, f.text); err != nil {
		var all *boatfile.Errors
		if errors.As(err, &all) {
			for _, p := range all.Problems {
				a.Errors = append(a.Errors, session.Slip{At: edit.Pointer(f.text, p.Line, p.Column), Line: p.Line, Column: p.Column, Message: p.Message, Hint: p.Hint})
			}
		}
	} else if fig := f.known[a.Stamp]; fig != nil {
		a.Figures = fig
	} else if known, err := report.Know(b, readings.Options{Options: draws.Options{N: 300}}); err == nil {
		if w, err := report.NewComparison(b, b.Layouts, 0, known); err == nil {
			a.Figures = &session.Figures{Stamp: a.Stamp, Form: session.Quick, Comparison: w}
			f.known[a.Stamp] = a.Figures
			if a.Layout == "" {
				a.Layout, a.Listener = b.Layouts[0].Name, b.Listeners[0].Name
			}
		}
	}
	if m.Op == "further" {
		a.Figures.Form = session.Full
	}
	if a.Fresh() && a.Figures.Form == session.Full {
		a.Left = 0
	}
	a.Dirty, a.CanUndo, a.CanRedo, a.Controls = string(f.text) != string(f.saved), len(f.past) > 0, false, f.controls()
	return *a
}

// controls are a few places of the demos.
func (f *fake) controls() (all []boatfile.Control) {
	price := 1.3
	for _, c := range []boatfile.Control{
		{At: "/engines/main/cycle", Group: "engines main", Label: "cycle", Choices: []string{"two-stroke", "four-stroke"}},
		{At: "/engines/main/running/speed", Group: "engines main", Part: "running", Label: "speed", Required: true},
		{At: "/engines/main/running/power", Group: "engines main", Part: "running", Label: "power"},
		{At: "/engines/main/mass", Group: "engines main", Label: "mass", Example: "640 kg", Taken: "430 kg from its power", Price: &price},
		{At: "/layouts/0/exhausts/main/outlet/bore", Group: "layouts as found", Part: "outlet", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/0/pipe/bore", Group: "layouts as found", Part: "pipe", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/0/pipe/length", Group: "layouts as found", Part: "pipe", Label: "length", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/5/packed/bore", Group: "layouts as found", Part: "packed old silencer", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/5/packed/length", Group: "layouts as found", Part: "packed old silencer", Label: "length", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/6/pipe/bore", Group: "layouts as found", Part: "pipe 7", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/6/pipe/length", Group: "layouts as found", Part: "pipe 7", Label: "length", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/6/pipe/name", Group: "layouts as found", Part: "pipe 7", Label: "name", Layout: "as found"},
		{At: "/partitions/0/open_area", Group: "partitions cabin bulkhead", Label: "open area"},
		{At: "/partitions/13/open_area", Group: "partitions wheelhouse door", Label: "open area"},
		{At: "/listeners/helm/limit", Group: "listeners helm", Label: "limit"},
	} {
		v, ok := edit.Get(f.text, c.At)
		if c.Value = v; !ok || v == "unknown" {
			c.Unknown = true
		}
		all = append(all, c)
	}
	return all
}
