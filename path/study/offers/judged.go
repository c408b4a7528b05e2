package offers

import (
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Duty is what the silencer of an offer has to serve: the gas at its place at rated duty, and
// the sound power of the outlet without it.
type Duty struct {
	Engine      string // on whose line it stands, where the layout has several; "" = the only one
	MassFlow    source.PipeFlow
	Temperature float64         // K
	Density     float64         // kg/m3
	Unsilenced  *spectrum.Bands // dB re 1 pW at the running duty; nil = not known
	AtRated     *spectrum.Bands // dB re 1 pW at rated, which promised levels are about; nil = as Unsilenced
	Bore        float64         // m of the pipe it joins; 0 = not known
	Limit       *float64        // Pa, the engine's back-pressure limit at rated; nil = not stated
}

// whose are the flow, heat and sound that an offer is judged by; alone is said where there is one engine.
func (d Duty) whose(alone string) string {
	if d.Engine == "" {
		return alone
	}
	return d.Engine + "'s"
}

// Judged is an offer brought to one basis.
type Judged struct {
	Name string
	// Loss by octave as stated; nil where it is not stated so.
	Loss *spectrum.Bands
	// LossDBA is what the offer promises in dB(A) on this exhaust; nil = can't be told.
	LossDBA   *float64
	LossBasis string
	// Drop is the pressure loss at the duty, Pa; Low and High differ where the basis is open.
	Drop, DropLow, DropHigh *float64
	DropBasis               string
	Price, Total            *float64 // as quoted, and with every extra whose price is known
	UnpricedExtras          []string
	Judgeable               bool
	Verdict                 string // one plain sentence
	Questions               []string
	Warnings                []string
	// Rank and what follows are set by RankQuotes: 0 = not ranked.
	Rank             int
	Layout           string
	Refused          bool     // the layout with it is refused: no rank
	Level, Low, High *float64 // dB(A) at the listener: the reading to expect after fitting, meter included
	CantTell         string   // why that reading tells nothing of the change; "" = it tells
}

func (j *Judged) question(text string) { j.Questions = append(j.Questions, text) }
