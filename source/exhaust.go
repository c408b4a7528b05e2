package source

import (
	"fmt"
	"math"
	"strings"

	"hushwake/source/spectrum"
)

// Standard deviations of a level, dB. The manual's own scatter for reciprocating engines could not
// be read; for gas turbines it quotes 5.0 to 5.6 dB.
const (
	modelSD  = 5.0 // judgement
	statedSD = 2.0 // judgement: a sound power measured on the engine
	dutySD   = 0.3 // judgement: of the dB that load and speed move the level
)

// LoadTerm is the change of exhaust level from full torque to a torque fraction M,
//
//	-10 (1 - M)    dB
//
// Source: J. G. Lilly, Engine Exhaust Noise Control (ASHRAE TC 2.6): about 10 dB from full load to none.
func LoadTerm(load float64) float64 { return -10 * (1 - load) }

// SpeedTerm is the change of exhaust level with speed at constant torque,
//
//	25 lg(n/n_rated)    dB
//
// Source: derived, slope of a single-zone blowdown model between 800 and 2600 rpm (23 to 25).
func SpeedTerm(speed, rated float64) float64 { return 25 * math.Log10(speed/rated) }

// dutyTerms are the two of them as data.
func (e Engine) dutyTerms(d Duty) []Term {
	load := e.LoadFraction(d)
	return []Term{
		{"load", "-10 (1 - M), M = torque / rated torque", "J. G. Lilly, Engine Exhaust Noise Control, ASHRAE TC 2.6", "read", spectrum.Fill(LoadTerm(load))},
		{"speed", "25 lg(n/n_rated)", "slope of a single-zone blowdown model", "derived", spectrum.Fill(SpeedTerm(d.Speed, e.Rated.Speed))},
	}
}

// partOf sums terms into a part that cites all of them. Its mark is that of the base, or of the octave
// row where that is weaker.
func partOf(sd float64, terms ...Term) Part {
	p := Part{Terms: terms, SD: sd, Formula: terms[0].Formula, Source: terms[0].Source, Mark: terms[0].Mark}
	for i, t := range terms {
		p.Bands = p.Bands.Plus(t.Bands)
		if i == 0 {
			continue
		}
		p.Formula += "; " + t.Name + ": " + t.Formula
		if !strings.Contains(p.Source, t.Source) {
			p.Source += "; " + t.Source
		}
		if strings.HasPrefix(t.Name, rowName) && t.Mark == "from memory" {
			p.Mark = t.Mark
		}
	}
	return p
}

const rowName = "octave row: "

// rowTerm subtracts an octave row.
func rowTerm(name string) Term {
	row := handbook[name]
	return Term{rowName + name, "subtract the row from the overall level", row.Table, row.Mark, spectrum.Bands{}.Minus(row.Subtract)}
}

// exhaustPart is the unsilenced exhaust sound power of the whole engine.
func (e Engine) exhaustPart(d Duty, lines lineModel) Part {
	if e.ExhaustLevel != nil {
		return e.statedPart(*e.ExhaustLevel, d, e.dutyTerms)
	}
	turbo := e.aspiration() == Turbocharged
	text := "119 + 10 lg(P/hp)"
	if turbo {
		text += " - 6 (turbine)"
	}
	terms := []Term{
		{"exhaust base", text, "UFC 3-450-02 (2003) eq. 2-3, its pipe length term left out", "read", spectrum.Fill(ExhaustBase(e.Rated.Power, turbo))},
		rowTerm("exhaust"),
	}
	terms = append(terms, lines.redistribution())
	duty := e.dutyTerms(d)
	moved := duty[0].Bands[0] + duty[1].Bands[0]
	return partOf(math.Hypot(modelSD, dutySD*moved), append(terms, duty...)...)
}

// statedPart is a level measured at the running duty, moved to duty d by the duty terms.
func (e Engine) statedPart(level spectrum.Bands, d Duty, terms func(Duty) []Term) Part {
	all := []Term{{"stated level", "sound power given by the owner", "the boat file", "measured", level}}
	moved := 0.0
	if run, _ := e.RunningDuty(); run != d {
		from, to := terms(run), terms(d)
		for i, t := range to {
			t.Bands = t.Bands.Minus(from[i].Bands)
			moved += t.Bands[0]
			t.Formula += ", from the measured duty to this one"
			all = append(all, t)
		}
	}
	return partOf(math.Hypot(statedSD, dutySD*moved), all...)
}

// perPipe shares a level among the pipes of separate banks.
func (p Part) perPipe(pipes int) Part {
	if pipes < 2 {
		return p
	}
	share := Term{"one of the pipes", fmt.Sprintf("-10 lg %d", pipes), "energy shared evenly by the banks", "derived", spectrum.Fill(-10 * math.Log10(float64(pipes)))}
	p.Terms = append(append([]Term(nil), p.Terms...), share)
	p.Bands = p.Bands.Plus(share.Bands)
	p.Formula += "; " + share.Name + ": " + share.Formula
	return p
}
