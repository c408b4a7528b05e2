package source

import (
	"math"
	"strings"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Standard deviations of a level, dB. The manual's own scatter for reciprocating engines could not
// be read; for gas turbines it quotes 5.0 to 5.6 dB.
const (
	modelSD       = 5.0  // judgement
	statedSD      = 2.0  // judgement: a sound power measured on the engine
	scatterSD     = 10.0 // judgement: octaves in which only the difference between cylinders sounds
	heldSD        = 10.0 // judgement: where the gas flow holds less than the manual says; 5 dB and the cut, up to this
	dutySD        = 0.3  // judgement: of the dB that load and speed move the level
	casingSpeedSD = 5.0  // judgement: dB per decade of speed; one boat showed slopes of 23 and 32
)

// turboSD is the doubt behind a turbine by octave (judgement, after one engine's sound data sheet,
// which differs from the row by 10 dB below firing and more above 2 kHz).
var turboSD = spectrum.Bands{10, 10, 6, 6, 6, 6, 5, 7, 10}

// withScatter is a doubt by octave, with that of octaves in which only weak orders sound.
func (m *lineModel) withScatter(sd spectrum.Bands) spectrum.Bands {
	for b := range lowBands {
		sd[b] += m.below(b) * math.Max(0, scatterSD-sd[b])
	}
	return sd
}

// law is how a part's level moves from rated to another duty, and the doubt of it.
type law struct {
	terms func(Duty) []Term
	sd    func(moved []float64) float64 // dB, from what each term moves the level
}

func (e Engine) exhaustLaw() law {
	return law{e.dutyTerms, func(moved []float64) float64 { return dutySD * (moved[0] + moved[1]) }}
}

// LoadTerm is the change of exhaust level from full torque to a torque fraction M,
//
//	-10 (1 - M)    dB
//
// Source: J. G. Lilly, Engine Exhaust Noise Control (ASHRAE TC 2.6): about 10 dB from full load to none.
func LoadTerm(load float64) float64 { return -10 * (1 - load) }

// speedTerm is the change of exhaust level with speed at constant torque,
//
//	25 lg(n/n_rated)    dB
//
// Source: derived, slope of a single-zone blowdown model between 800 and 2600 rpm (23 to 25).
func speedTerm(speed, rated float64) float64 { return 25 * math.Log10(speed/rated) }

// dutyTerms are the two of them as data.
func (e Engine) dutyTerms(d Duty) []Term {
	load := e.LoadFraction(d)
	return []Term{
		{"load", published.By("-10 (1 - M), M = torque / rated torque", "J. G. Lilly, Engine Exhaust Noise Control, ASHRAE TC 2.6", "read"), spectrum.Fill(LoadTerm(load))},
		{"speed", published.By("25 lg(n/n_rated)", "slope of a single-zone blowdown model", "derived"), spectrum.Fill(speedTerm(d.Speed, e.Rated.Speed))},
	}
}

// partOf sums terms into a part that cites all of them. Its mark is that of the base, or of the octave
// row where that is weaker.
func partOf(sd spectrum.Bands, terms ...Term) Part {
	p := Part{Bands: terms[0].Bands, Terms: terms[:1:1], SD: sd, Cited: terms[0].Cited}
	for _, t := range terms[1:] {
		p = p.with(t)
	}
	return p
}

// with adds a term to a part.
func (p Part) with(t Term) Part {
	p.Terms = append(p.Terms[:len(p.Terms):len(p.Terms)], t)
	p.Bands = p.Bands.Plus(t.Bands)
	p.Formula += "; " + t.Name + ": " + t.Formula
	if !strings.Contains(p.Source, t.Source) {
		p.Source += "; " + t.Source
	}
	if strings.HasPrefix(t.Name, rowName) && t.Mark == "from memory" {
		p.Mark = t.Mark
	}
	return p
}

// moving adds the terms of a law from one duty to another, nil for rated, and their doubt to sd.
func (p Part) moving(l law, from []Term, to []Term) Part {
	moved := make([]float64, len(to))
	for i, t := range to {
		if from != nil {
			t.Bands = t.Bands.Minus(from[i].Bands)
			t.Formula += ", from the measured duty to this one"
		}
		moved[i] = t.Bands[0]
		p = p.with(t)
	}
	for b := range p.SD {
		p.SD[b] = math.Hypot(p.SD[b], l.sd(moved))
	}
	return p
}

const rowName = "octave row: "

// rowTerm subtracts an octave row.
func rowTerm(name string) Term {
	row := handbook[name]
	return Term{rowName + name, published.By("subtract the row from the overall level", row.Table, row.Mark), spectrum.Bands{}.Minus(row.Subtract)}
}

// exhaustPart is the unsilenced exhaust sound power of the whole engine.
func (e Engine) exhaustPart(d Duty, lines *lineModel) Part {
	if e.ExhaustLevel != nil {
		return e.statedPart(*e.ExhaustLevel, d, e.exhaustLaw())
	}
	sd, text := spectrum.Fill(modelSD), "119 + 10 lg(P/hp)"
	turbo := e.aspiration() == Turbocharged
	if turbo {
		sd = turboSD
		text += " - 6 (turbine)"
	}
	base := Term{"exhaust base", published.By(text, "UFC 3-450-02 (2003) eq. 2-3, its pipe length term left out", "read"), spectrum.Fill(exhaustBase(e.Rated.Power, turbo))}
	l := e.exhaustLaw()
	return partOf(lines.withScatter(sd), base, rowTerm("exhaust"), lines.redistribution()).moving(l, nil, l.terms(d))
}

// statedPart is a level measured at a duty, moved to duty d by a law.
func (e Engine) statedPart(level spectrum.Bands, d Duty, l law) Part {
	return e.fromMeasured(partOf(spectrum.Fill(statedSD), Term{"stated level", published.By("sound power given by the owner", "the boat file", "measured"), level}), d, l)
}

// fromMeasured moves a part from the duty that stated levels were measured at to duty d.
func (e Engine) fromMeasured(p Part, d Duty, l law) Part {
	at := e.MeasuredAt
	if at == (Duty{}) {
		at, _ = e.RunningDuty()
	}
	if at != d {
		p = p.moving(l, l.terms(at), l.terms(d))
	}
	return p
}
