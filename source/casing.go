package source

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

const (
	manualCasing = "UFC 3-450-02 (2003) eq. 2-1"
	manualInlet  = "UFC 3-450-02 (2003) eq. 2-2, its duct term left out"
	manualSet    = "UFC 3-450-01 (2003) table C-28"
)

// casingTerms are the manual's corrections A to D, dB.
type casingTerms struct{ A, B, C, D float64 }

func (c casingTerms) sum() float64 { return c.A + c.B + c.C + c.D }

// casingCorrections chooses A (speed), B (fuel), C (arrangement) and D (blower inlet). Only the -5
// below 600 rpm is confirmed by a published result; the others are from memory. The manual has no
// blower row above 1500 rpm; there its 600 to 1500 rpm row is used with A = 0 (judgement).
func (e Engine) casingCorrections() (c casingTerms, row string) {
	n := e.Rated.Speed
	switch {
	case n < 600:
		c.A, row = -5, "casing under 600 rpm"
	case n <= 1500:
		c.A, row = -2, "casing 600 to 1500 rpm"
	default:
		row = "casing over 1500 rpm"
	}
	if e.fuel() == NaturalGas {
		c.B = -3
	}
	if e.arrangement() == Vee {
		c.C = -1
	}
	if e.aspiration() == Blower {
		c.D = 3
		if n >= 600 {
			row = "casing 600 to 1500 rpm with Roots blower"
		}
	}
	return c, row
}

// casingPart is the sound power of the engine body.
func (e Engine) casingPart(d Duty, lines *lineModel) Part {
	l := e.casingLaw()
	if e.CasingLevel != nil {
		return e.statedPart(*e.CasingLevel, d, l)
	}
	c, row := e.casingCorrections()
	base := Term{"casing base", published.By(fmt.Sprintf("93 + 10 lg(P/hp) %+g speed %+g fuel %+g arrangement %+g blower inlet", c.A, c.B, c.C, c.D),
		manualCasing, "from memory"), spectrum.Fill(casingBase(e.Rated.Power, c.sum()))}
	return partOf(lines.withScatter(spectrum.Fill(modelSD)), base, rowTerm(row)).moving(l, nil, l.terms(d))
}

func (e Engine) casingLaw() law { return law{e.casingDuty, casingDoubt} }

// CasingMove is by how much the casing, and all that it shakes, is louder at duty d than where what is stated was measured: terms,
// sum and doubt, dB; none at that duty.
func (e Engine) CasingMove(d Duty) Part { return e.fromMeasured(Part{}, d, e.casingLaw()) }

// casingSpeed is the change of casing level with speed,
//
//	30 lg(n/n_rated)    dB, +-5 dB per decade
//
// Source: SAE 590127 (1959), abstract: total diesel noise goes as the cube of speed and changes little
// with load. One boat measured from 750 to 2700 rpm showed 23 and 32 lg n; it is not fitted to it.
func casingSpeed(speed, rated float64) float64 { return casingSlope * math.Log10(speed/rated) }

const casingSlope = 30.0

// casingDuty is the casing's change with load and speed.
func (e Engine) casingDuty(d Duty) []Term {
	load := Term{"casing load", published.By("0 (not turbocharged)", "SAE 780174 (1978), abstract: load matters little", "judgement"), spectrum.Bands{}}
	if e.aspiration() == Turbocharged {
		load = Term{"casing load", published.By("-1.5 (1 - M), turbocharged", "SAE 780174 (1978), abstract: load matters; size after one engine's sound data sheet", "judgement"),
			spectrum.Fill(-1.5 * (1 - e.LoadFraction(d)))}
	}
	return []Term{load, {"casing speed", published.By("30 lg(n/n_rated), +-5 dB per decade", "SAE 590127 (1959), abstract: total diesel noise as the cube of speed", "read"),
		spectrum.Fill(casingSpeed(d.Speed, e.Rated.Speed))}}
}

// casingDoubt is the doubt of what load and speed move the casing level, dB.
func casingDoubt(moved []float64) float64 {
	return math.Hypot(dutySD*moved[0], casingSpeedSD/casingSlope*moved[1])
}

// casingNotes lists what the casing level took for granted.
func (e Engine) casingNotes() (a []Assumption) {
	if e.CasingLevel != nil {
		return nil
	}
	if e.aspiration() == Blower {
		a = append(a, *e.assume("casing: blower inlet", "open to the engine space, unmuffled: +3 dB",
			"UFC 3-450-02 (2003) eq. 2-1, correction D, cautious choice; 0 dB if it has a silencer", 3))
	}
	if e.aspiration() == Turbocharged {
		a = append(a, *e.assume("turbocharger inlet", "as at rated duty",
			"cautious: it falls with load and speed, by how much no source at hand tells; but a bare or ducted inlet may lie 10 to 20 dB above the row (one maker's limit for medium-speed engines is 135 dB in the duct)", 5))
	}
	if e.Arrangement == 0 {
		a = append(a, *e.assume("arrangement", "inline", "the commoner one; a vee has 1 dB less casing noise", 1))
	}
	return a
}

// intakePart is the open inlet of a turbocharged engine; others carry it inside the casing value.
func (e Engine) intakePart() *Part {
	if e.aspiration() != Turbocharged {
		return nil
	}
	p := partOf(spectrum.Fill(modelSD), Term{"inlet base", published.By("94 + 5 lg(P/hp)", manualInlet, "from memory"), spectrum.Fill(inletBase(e.Rated.Power))}, rowTerm("turbocharger inlet"),
		Term{"inlet duty", published.By("0: as at rated, though it falls with load", "no source for the fall", "judgement"), spectrum.Bands{}})
	return &p
}

// alternatorPart is the electrical end of a set.
func (e Engine) alternatorPart(d Duty) *Part {
	if e.Generator == nil {
		return nil
	}
	p := partOf(spectrum.Fill(modelSD), Term{"generator base", published.By("84 + 10 lg(P/MW) + 6.6 lg(n/rpm)", manualSet, "from memory"),
		spectrum.Fill(alternatorBase(e.electricalPower(), d.Speed))}, rowTerm("generator"),
		Term{"generator load", published.By("0: speed stands in the base, load in no term of the manual", manualSet, "judgement"), spectrum.Bands{}})
	return &p
}

// electricalEfficiency of a small alternator (judgement: sets of 5 to 20 kW lose 10 to 15 %).
const electricalEfficiency = 0.87

func (e Engine) electricalPower() float64 {
	if e.Generator.Power > 0 {
		return e.Generator.Power
	}
	return electricalEfficiency * e.Rated.Power
}
