package wet

import (
	"math"

	"hushwake/source/said"
)

// Heights over the loaded waterline, m.
const (
	injectionHeight  = 0.305  // injection point (12 in, boatbuilders' journal no. 170, 2017; read)
	injectionMinimum = 0.200  // one engine manual's least (read)
	loopHeight       = 0.450  // anti-siphon loop, static (boat mechanical systems handbook; read)
	loopHeeled       = 0.203  // the same over the heeled waterline (8 in; read)
	chamberDrop      = 0.305  // chamber inlet below the injection (boat mechanical systems handbook; read)
	chamberDropLeast = 0.230  // the same by a small-engine maker's page (read)
	hoseFall         = 0.0417 // fall per length of wet hose (1/2 in per ft; read)
)

const heightSource = "boatbuilders' journal no. 170 (2017) on exhaust installation; boat mechanical systems handbook, ch. 7"

// Heeled is the height over the waterline of a point at a static height and a distance off the
// centreline when the boat heels to its side (rad), turning about the waterline's centre:
//
//	h' = h cos(heel) - |y| sin(heel)
//
// Heights and distances are in m.
func Heeled(height, offCentre, heel float64) float64 {
	return height*math.Cos(heel) - math.Abs(offCentre)*math.Sin(heel)
}

// Point is a level in the exhaust that must stay over the water.
type Point struct {
	Height    float64 // m over the loaded waterline
	Stated    bool
	OffCentre float64 // m from the centreline
	Heel      float64 // rad, worst
}

// Low is its height at the worst heel, m.
func (p Point) Low() float64 { return Heeled(p.Height, p.OffCentre, p.Heel) }

// Injection checks the height of the point where water goes in; loop says that an anti-siphon loop is fitted.
func (p Point) Injection(loop bool) []Finding {
	switch {
	case !p.Stated:
		return []Finding{{Code: "INJECTION-HEIGHT-UNKNOWN", Severity: Caution, Source: heightSource,
			Text:   "the height of the water injection over the waterline is not stated: too low, and the sea siphons into the engine",
			Action: said.Textf("measure it in loaded trim to the lowest inner edge; {305 mm} or more is wanted, or an anti-siphon loop")}}
	case loop && p.Low() >= injectionMinimum:
		return nil
	case loop:
		return []Finding{{Code: "INJECTION-LOW", Severity: Note, Source: heightSource,
			Text:   said.Textf("the injection point is {%.0f mm} over the waterline at worst: the anti-siphon loop alone keeps the sea out", p.Low()*1e3),
			Action: "service the loop's valve every season"}}
	case p.Low() < injectionMinimum:
		return []Finding{{Code: "INJECTION-SIPHONS", Severity: Danger, Refuse: true, Source: heightSource,
			Text:   said.Textf("the injection point is {%.0f mm} over the waterline ({%.0f mm} heeled) without an anti-siphon loop: the sea can siphon through the pump into the engine", p.Height*1e3, p.Low()*1e3),
			Action: said.Textf("fit an anti-siphon loop at least {450 mm} over the waterline, or raise the injection point")}}
	case p.Height < injectionHeight:
		return []Finding{{Code: "INJECTION-LOW", Severity: Warning, Source: heightSource,
			Text:   said.Textf("the injection point is {%.0f mm} over the waterline; {305 mm} is the usual least without an anti-siphon loop", p.Height*1e3),
			Action: "fit an anti-siphon loop or raise the injection point"}}
	}
	return nil
}

// Loop checks the top of an anti-siphon loop.
func (p Point) Loop() []Finding {
	return p.top("LOOP", "the top of the anti-siphon loop", loopHeeled)
}

// RiserTop checks the highest point of the exhaust run behind a chamber.
func (p Point) RiserTop() []Finding {
	return p.top("RISER-TOP", "the top of the riser", 0)
}

func (p Point) top(code, what string, heeled float64) []Finding {
	switch {
	case !p.Stated:
		return []Finding{{Code: code + "-HEIGHT-UNKNOWN", Severity: Caution, Source: heightSource,
			Text:   "the height of " + what + " over the waterline is not stated",
			Action: said.Textf("measure it in loaded trim; {450 mm} or more is wanted")}}
	case p.Low() <= 0:
		return []Finding{{Code: code + "-UNDER-WATER", Severity: Danger, Refuse: true, Source: heightSource,
			Text:   said.Textf("%s comes {%.0f mm} under the waterline when the boat heels: the sea runs in", what, -p.Low()*1e3),
			Action: said.Textf("raise it to at least {450 mm} over the waterline, on the centreline")}}
	case p.Height < loopHeight || p.Low() < heeled:
		return []Finding{{Code: code + "-LOW", Severity: Warning, Source: heightSource,
			Text:   said.Textf("%s is {%.0f mm} over the waterline and {%.0f mm} heeled; {450 mm} static%s is wanted", what, p.Height*1e3, p.Low()*1e3, heeledWords(heeled)),
			Action: "raise it, and keep it near the centreline"}}
	}
	return nil
}

func heeledWords(heeled float64) string {
	if heeled == 0 {
		return ""
	}
	return said.Textf(" and {%.0f mm} heeled", heeled*1e3)
}

// ChamberDropFindings checks how far the chamber's inlet lies below the injection, m.
func ChamberDropFindings(drop float64) []Finding {
	if drop >= chamberDrop {
		return nil
	}
	severity := Caution
	if drop < chamberDropLeast {
		severity = Warning
	}
	return []Finding{{Code: "CHAMBER-HIGH", Severity: severity, Source: "boat mechanical systems handbook, ch. 7",
		Text:   said.Textf("the chamber's inlet lies {%.0f mm} below the injection; {305 mm} is wanted so that water cannot run back to the engine", drop*1e3),
		Action: "lower the chamber or raise the injection"}}
}

// HoseSlope checks the fall of a wet hose: rise is negative where it falls towards the outlet, m.
func HoseSlope(rise, length float64) []Finding {
	if !(length > 0) || -rise >= hoseFall*length {
		return nil
	}
	return []Finding{{Code: "HOSE-FLAT", Severity: Caution, Source: "boat mechanical systems handbook, ch. 7 (1/2 in per ft); manuals ask 5 to 10 degrees",
		Text:   said.Textf("the hose falls {%.0f mm} over {%.1f m}; {%.0f mm} is wanted so that it drains", 0-rise*1e3, length, hoseFall*length*1e3),
		Action: "let it fall all the way to the outlet without a low spot"}}
}
