package silencer

import (
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/march"
)

// Parallel is several lines side by side, kind "parallel". What its elements do not state of lagging and
// space is that of the parallel part.
type Parallel struct {
	Common
	Branches [][]Element
}

// Kind names the element.
func (*Parallel) Kind() string { return "parallel" }

// Within are its branches.
func (e *Parallel) Within() [][]Element { return e.Branches }

// Form: as long as its longest branch; its ports have the area of all branches' together.
func (e *Parallel) Form() (f Form) {
	known := true
	for _, b := range e.Branches {
		length := 0.0
		for _, x := range b {
			g := x.Form()
			length += g.Length
			f.Outer = math.Max(f.Outer, g.Outer)
			m := massOf(x.Base(), g)
			if known = known && (m != nil || massless(x)); m != nil {
				f.Mass += *m
			}
		}
		f.Length = math.Max(f.Length, length)
	}
	if !known {
		f.Mass = 0
	}
	f.In, f.Out = e.ports()
	return f
}

// ports are the bores of one tube with the area of all branches. A branch on its own is the line itself: a
// bore that it does not state is that of the line, 0.
func (e *Parallel) ports() (in, out float64) {
	if len(e.Branches) == 1 && len(e.Branches[0]) > 0 {
		b := e.Branches[0]
		for _, x := range b {
			f := x.Form()
			out = orDefault(f.Out, orDefault(f.In, out))
		}
		return b[0].Form().In, out
	}
	for _, b := range e.Branches {
		if p := ports(b, 0, 0); len(p) > 0 {
			in, out = math.Hypot(in, p[0].in), math.Hypot(out, p[len(p)-1].out)
		}
	}
	return in, out
}

// flow and sound are those of its branches, see course.split and layout.parallel.
func (e *Parallel) flow(*march.Stream) {}

func (e *Parallel) sound(*chain.Chain) {}

func (e *Parallel) check() error {
	if len(e.Branches) == 0 {
		return errors.New("a parallel part needs branches")
	}
	for i, b := range e.Branches {
		if len(b) == 0 {
			return fmt.Errorf("branch %d has no element", i+1)
		}
		if err := checkElements(b); err != nil {
			return fmt.Errorf("branch %d: %w", i+1, err)
		}
		if len(e.Branches) > 1 && !(ports(b, 0, 0)[0].in > 0) {
			return fmt.Errorf("branch %d has no bore\nhint: give its pipe a bore", i+1)
		}
	}
	return nil
}
