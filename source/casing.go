package source

import (
	"fmt"
	"math"

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
func (e Engine) casingPart(d Duty) Part {
	if e.CasingLevel != nil {
		return e.statedPart(*e.CasingLevel, d, e.casingDuty)
	}
	c, row := e.casingCorrections()
	base := Term{"casing base", fmt.Sprintf("93 + 10 lg(P/hp) %+g speed %+g fuel %+g arrangement %+g blower inlet", c.A, c.B, c.C, c.D),
		manualCasing, "from memory", spectrum.Fill(CasingBase(e.Rated.Power, c.sum()))}
	terms := append([]Term{base, rowTerm(row)}, e.casingDuty(d)...)
	return partOf(math.Hypot(modelSD, dutySD*terms[2].Bands[0]), terms...)
}

// casingDuty is the casing's change with load: none for a naturally aspirated or blower engine;
// -4 (1 - M) dB, 3 dB at a quarter load, for a turbocharged one. With speed it does not change here.
func (e Engine) casingDuty(d Duty) []Term {
	if e.aspiration() != Turbocharged {
		return []Term{{"casing load", "0 (not turbocharged)", "SAE 780174 (1978), abstract: load matters little", "judgement", spectrum.Bands{}}}
	}
	return []Term{{"casing load", "-4 (1 - M), turbocharged", "SAE 780174 (1978), abstract: load matters; size is judgement", "judgement",
		spectrum.Fill(-4 * (1 - e.LoadFraction(d)))}}
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
	p := partOf(modelSD, Term{"inlet base", "94 + 5 lg(P/hp)", manualInlet, "from memory", spectrum.Fill(InletBase(e.Rated.Power))}, rowTerm("turbocharger inlet"))
	return &p
}

// alternatorPart is the electrical end of a set.
func (e Engine) alternatorPart(d Duty) *Part {
	if e.Generator == nil {
		return nil
	}
	p := partOf(modelSD, Term{"generator base", "84 + 10 lg(P/MW) + 6.6 lg(n/rpm)", manualSet, "from memory",
		spectrum.Fill(AlternatorBase(e.electricalPower(), d.Speed))}, rowTerm("generator"))
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
