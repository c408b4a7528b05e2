package readings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/structure"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// Parted is what two readings at one seat, with a cover or door open and shut, say of the ways to it; dB in Unit.
type Parted struct {
	Open, Shut int    // the readings' numbers
	What, Unit string // seat and what was open
	Worth      float64
	Structure  float64  // through mounts and hull; with Bound the most that it can be
	Air        *float64 // with all shut; nil with Bound
	Bound      bool
	Model      float64 // of the way through mounts and hull, before the readings
}

// coverTests finds the pairs that differ in nothing but what stood open, and parts each.
func coverTests(m *draws.Model, readings []path.Reading, predict Predictor) (all []Parted, err error) {
	for _, shut := range readings {
		for _, open := range readings {
			if shut.Level == nil || open.Level == nil || shut.Listener == "" || len(shut.Open) > 0 || len(open.Open) == 0 {
				continue
			}
			as := PlainDuty(m, open)
			as.Open = nil
			if !sameConditions(PlainDuty(m, shut), as) || slices.ContainsFunc(all, func(p Parted) bool { return p.Open == open.Index }) {
				continue
			}
			p, ok, err := coverTest(m, shut, open, predict)
			if err != nil {
				return nil, err
			}
			if ok {
				all = append(all, p)
			}
		}
	}
	return all, nil
}

// coverTest parts one pair by the worth that the model gives the cover for what comes by air.
func coverTest(m *draws.Model, shut, open path.Reading, predict Predictor) (p Parted, ok bool, err error) {
	off, _, why := background(*open.Level, open.Background)
	on, _, reason := background(*shut.Level, shut.Background)
	w, unit, err := weighting(shut)
	if err != nil || why+reason != "" {
		return p, false, err
	}
	worth, borne := [2]float64{}, 0.0
	for i, r := range []path.Reading{open, shut} {
		l, err := configured(m, r, predict)
		if err != nil {
			return p, false, err
		}
		h := l.Listener(r.Listener)
		if h == nil {
			return p, false, nil
		}
		air, structure := h.AirAndStructure()
		if worth[i] = air.Level(nil, w); i == 1 {
			borne = structure.Level(nil, w)
		}
		if len(air.Routes) == 0 || i == 1 && len(structure.Routes) == 0 {
			return p, false, nil
		}
	}
	p = Parted{Open: open.Index, Shut: shut.Index, What: placeOf(shut) + ", open: " + strings.Join(open.Open, ", "), Unit: unit, Worth: worth[0] - worth[1], Model: borne}
	p.Structure, p.Bound = structure.ByCover(off, on, p.Worth)
	if !p.Bound {
		air := spectrum.Level(math.Max(0, spectrum.Power(on)-spectrum.Power(p.Structure)))
		p.Air = &air
	}
	return p, true, nil
}

// Text says it in one sentence.
func (p Parted) Text() string {
	head := fmt.Sprintf("%s, against shut: it is worth %.1f dB of what comes by air; ", p.What, p.Worth)
	model := fmt.Sprintf(" (the model before any reading and without its doubts: %.1f)", p.Model)
	switch {
	case p.Bound:
		return head + fmt.Sprintf("the readings differ by so much of it, or it is worth so little, that mounts and hull bring at most %.1f %s%s", p.Structure, p.Unit, model)
	case *p.Air <= spectrum.Silent/2:
		return head + fmt.Sprintf("they tell no difference: all of it, %.1f %s, comes through mounts and hull%s", p.Structure, p.Unit, model)
	}
	return head + fmt.Sprintf("mounts and hull bring %.1f %s%s, the air %.1f", p.Structure, p.Unit, model, *p.Air)
}
