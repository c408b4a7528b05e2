package passage

import (
	"hushwake/path"
	"hushwake/source"
)

// cycle is a test cycle that stands in for a profile that nobody stated.
type cycle struct {
	name, source, mark string
	modes              []mode
}

// idleShare is the share of rated speed that an engine idles at (judgement); cycle E4 says "idle".
const idleShare = 0.25

// The cycles: power 0 is by the load law at that speed, -1 idles.
var (
	cycleE3 = cycle{"ISO 8178-4 cycle E3, a ship's propeller", "NOx Technical Code 3.2", "read",
		[]mode{{1, 0, 0.2}, {0.91, 0, 0.5}, {0.80, 0, 0.15}, {0.63, 0, 0.15}}}
	cycleE4 = cycle{"ISO 8178-4 cycle E4, a planing boat's propeller", "40 CFR 1045 appendix II", "read",
		[]mode{{1, 0, 0.06}, {0.8, 0, 0.14}, {0.6, 0, 0.15}, {0.4, 0, 0.25}, {idleShare, -1, 0.40}}}
	cycleD2 = cycle{"ISO 8178-4 cycle D2, a set", "NOx Technical Code 3.2", "read",
		[]mode{{1, 1, 0.05}, {1, 0.75, 0.25}, {1, 0.5, 0.3}, {1, 0.25, 0.3}, {1, 0.1, 0.1}}}
)

// planing is the exponent of power over speed below which a boat is taken to plane (half way from 2.5 to 3).
const planing = 2.75

// cycleOf is the cycle of a layout with the engines that run in it: those that drive propellers, else the sets.
func cycleOf(l *path.Layout) (c cycle, engines []string) {
	c = cycleD2
	var sets []string
	for i := range l.Engines {
		switch e := &l.Engines[i]; {
		case e.Stopped:
		case e.LoadLaw() != source.Propeller:
			sets = append(sets, e.Name)
		case e.Exponent > 0 && e.Exponent < planing:
			c, engines = cycleE4, append(engines, e.Name)
		default:
			c, engines = cycleE3, append(engines, e.Name)
		}
	}
	if len(engines) == 0 {
		engines = sets
	}
	return c, engines
}

// legs are the modes of the cycle over the hours of a day.
func (c cycle) legs(engines []string, hours float64) (all []leg) {
	for _, m := range c.modes {
		all = append(all, leg{Leg: path.Leg{Engines: engines, Hours: m.weight * hours}, mode: m})
	}
	return all
}
