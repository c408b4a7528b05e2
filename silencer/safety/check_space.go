package safety

import (
	"cmp"
	"fmt"
	"math"

	"hushwake/silencer"
	"hushwake/source/said"
)

const (
	leastGap = 3e-3  // m a side, under which a part is refused
	usualGap = 50e-3 // m a side the trade asks for
	rounding = 1e-9  // m, rounding of the sizes as stated
)

// space checks each element with its lagging against its stated envelope and the hatch.
func (i *inspection) space() {
	i.each(func(e silencer.Element, r silencer.Row, _ float64) {
		f, b := e.Form(), e.Base()
		if len(b.Envelope) >= 2 {
			i.cross(f, b, r)
		}
		if len(b.Envelope) >= 3 {
			i.long(f, b, r)
		}
		if len(i.c.Hatch) >= 2 && (f.Body > 0 || f.Tall > 0) {
			i.hatch(f, r)
		}
	})
}

// cross compares the outside with the clear cross-section.
func (i *inspection) cross(f silencer.Form, b *silencer.Common, r silencer.Row) {
	if f.Outer == 0 {
		i.add(Finding{Code: "SIZE-UNKNOWN", Severity: Caution, Element: r.Name, Source: geometry,
			Text:   fmt.Sprintf("%s: an envelope is stated but no outside diameter, so its fit cannot be judged.", r.Name),
			Action: "state the diameter"})
		return
	}
	size := f.Outer + 2*b.Lagging.Thickness
	clear := math.Min(b.Envelope[0], b.Envelope[1])
	gap := (clear-size)/2 + rounding
	wanted, from := usualGap, said.Textf("{50 mm} a side: ")+practice
	if c := math.Max(b.Clearance, i.c.Clearance); c > wanted {
		wanted, from = c, "clearance to combustibles stated in the boat file"
	}
	switch {
	case gap < leastGap:
		i.add(Finding{Code: CodeDoesNotFit, Severity: Danger, Refuse: true, Element: r.Name, Source: geometry,
			Text:   said.Textf("%s doesn't fit: {%.0f mm} over its lagging in a clear space of {%.0f mm}, %s.", r.Name, 1e3*size, 1e3*clear, gapWords(gap)),
			Action: "a slimmer part, thinner lagging of better insulation, or a wider trunk"})
	case gap < wanted:
		i.add(Finding{Code: CodeTight, Severity: Caution, Element: r.Name, Source: from,
			Text:   said.Textf("%s is {%.0f mm} over its lagging in {%.0f mm}: {%.4g mm} are left each side, {%.4g mm} are wanted for air, growth and hands.", r.Name, 1e3*size, 1e3*clear, tenths(gap), 1e3*wanted),
			Action: "check what the trunk is made of and how the part is slid in and drawn out; keep combustibles shielded"})
	}
}

func gapWords(gap float64) string {
	if gap < 0 {
		return said.Textf("{%.0f mm} too wide", -2e3*gap)
	}
	return said.Textf("only {%.1f mm} a side", tenths(gap))
}

// tenths is a gap in mm cut to tenths, so that a gap under a limit never reads as one that keeps it.
func tenths(gap float64) float64 { return math.Floor(1e4*gap) / 10 }

func (i *inspection) long(f silencer.Form, b *silencer.Common, r silencer.Row) {
	length := cmp.Or(f.Tall, f.Length)
	over := length - b.Envelope[2]
	if over > 0 {
		i.add(Finding{Code: CodeTooLong, Severity: Danger, Refuse: true, Element: r.Name, Source: geometry,
			Text:   said.Textf("%s is {%.0f mm} long in {%.0f mm}: {%.0f mm} too long, flanges not counted.", r.Name, 1e3*length, 1e3*b.Envelope[2], 1e3*over),
			Action: "a shorter part, or two in series in different places"})
	}
}

// hatch says whether a round body goes through endways.
func (i *inspection) hatch(f silencer.Form, r silencer.Row) {
	least := math.Min(i.c.Hatch[0], i.c.Hatch[1])
	if f.Outer == 0 || f.Outer <= least {
		return
	}
	i.add(Finding{Code: CodeHatch, Severity: Warning, Element: r.Name, Source: geometry,
		Text:   said.Textf("%s, {%.0f mm} across without lagging, does not pass the hatch of {%.0f x %.0f mm}.", r.Name, 1e3*f.Outer, 1e3*i.c.Hatch[0], 1e3*i.c.Hatch[1]),
		Action: "look for another way in, a split body, or a smaller part"})
}

// hotRun is the metal from the engine to the outlet or the first hose.
type hotRun struct {
	grown, travel float64 // m
	bellows       int
	untold        int     // bellows without a stated travel
	first         float64 // m from the engine to the first bellows
	length        float64 // m
	hose          bool    // a hose ends it
}

func (h *hotRun) add(e silencer.Element, r silencer.Row) {
	h.grown += r.Growth
	if f := e.Form(); f.Bellows {
		if h.bellows++; h.bellows == 1 {
			h.first = h.length
		}
		h.travel += f.Travel
		if f.Travel == 0 {
			h.untold++
		}
	}
	h.length += r.Length
}

// growth compares what the hot run grows with what its bellows take up. The run is taken as fixed at
// the engine and at the outlet or the first hose.
func (i *inspection) growth() {
	var h hotRun
	i.each(func(e silencer.Element, r silencer.Row, _ float64) {
		h.hose = h.hose || e.Form().Hose
		if !h.hose && r.Branch == 0 {
			h.add(e, r)
		}
	})
	least := i.limit("bellows_growth")
	if h.grown < least.SI() {
		return
	}
	i.bellows(h, least.Source)
	if h.bellows > 0 && h.first > 1 {
		i.add(Finding{Code: "BELLOWS-FAR", Severity: Note, Source: "boat mechanical systems handbook, ch. 7",
			Text: said.Textf("The first bellows sits {%.1f m} from the engine; near the engine it also takes its movement.", h.first), Action: "put a bellows close to the manifold"})
	}
}

func (i *inspection) bellows(h hotRun, source string) {
	mm, f := 1e3*h.grown, Finding{Severity: Caution, Source: source}
	switch {
	case h.bellows == 0 && h.hose:
		f.Code, f.Text = "NO-BELLOWS", said.Textf("The metal before the hose grows {%.0f mm} and has no bellows; the engine's movement loads it too.", mm)
		f.Action = "fit a bellows near the engine"
	case h.bellows == 0:
		f.Code, f.Severity = "NO-BELLOWS", Warning
		f.Text = said.Textf("The run grows {%.0f mm} when hot and has no bellows: flanges, turbo and welds will take the strain.", mm)
		f.Action = "fit a bellows near the engine, and a slip joint or a second bellows if one is not enough"
	case h.untold > 0:
		f.Code, f.Text = "BELLOWS-TRAVEL-UNKNOWN", said.Textf("The run grows {%.0f mm}; the travel of a bellows is not stated.", mm)
		f.Action = said.Textf("choose bellows rated for {%.0f mm} in all", 1.5*mm)
	case h.grown > h.travel:
		f.Code, f.Severity = "BELLOWS-SHORT", Warning
		f.Text = said.Textf("The run grows {%.0f mm} when hot; its bellows take {%.0f mm}.", mm, 1e3*h.travel)
		f.Action = "fit a second bellows or a slip joint, with a fixed point between them"
	case 1.5*h.grown > h.travel:
		f.Code, f.Source = "BELLOWS-MARGIN", "one and a half times the growth: "+practice
		f.Text = said.Textf("The run grows {%.0f mm}; its bellows take {%.0f mm}. The trade asks half as much again for engine movement.", mm, 1e3*h.travel)
		f.Action = "a bellows with more travel, or a second one"
	default:
		return
	}
	i.add(f)
}
