package path

import (
	"fmt"
	"strings"

	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// pipeFlanking is how far below the unsilenced exhaust the sound lies that passes a line's silencers in the pipe's wall and
// past joints and hangers, dB, with its standard deviation. Judgement: makers are asked how they measured more than 50 dB
// in place; no handbook row of an engine silencer has more than 29 dB in an octave, the one measured in place 38.
const (
	pipeFlanking   = 50.0
	pipeFlankingSD = 6.0
)

// flankingSource is where it comes from.
const flankingSource = "judgement: more than 50 dB is seldom left in place; handbook rows of engine silencers end at 29 dB, one measured at 38"

// Flanked is a loss with the sound along the pipe beside it, as energy: of what the silencers hold back a part passes
// them. Where nothing is held back nothing flanks.
func Flanked(db float64) float64 {
	held := max(0, 1-spectrum.Power(-db))
	return -spectrum.Level(spectrum.Power(-db) + held*spectrum.Power(-pipeFlanking))
}

// Flank caps the losses of a line by what passes along its pipe. share is the part of the energy that came that way, dB.
func Flank(a *silencer.Acoustics) (share spectrum.Bands) {
	for b := range a.InsertionLoss {
		a.InsertionLoss[b] = Flanked(a.InsertionLoss[b])
		a.BroadbandLoss[b] = Flanked(a.BroadbandLoss[b])
		share[b] = min(0, a.InsertionLoss[b]-pipeFlanking)
	}
	lines := make([]float64, len(a.LineLoss)) // the line's own are others' too
	for i, v := range a.LineLoss {
		lines[i] = Flanked(v)
	}
	a.LineLoss = lines
	return share
}

// FlankingNote says where the way along the pipe counts; "" = nowhere.
func FlankingNote(share spectrum.Bands) string {
	var hz []string
	for b, db := range share {
		if db > -10 {
			hz = append(hz, fmt.Sprintf("%g", spectrum.Nominal[b]))
		}
	}
	if len(hz) == 0 {
		return ""
	}
	return fmt.Sprintf("at %s Hz sound along the pipe caps the loss at %.0f dB (%s)", strings.Join(hz, ", "), pipeFlanking, flankingSource)
}

// FlankingDoubt is that of the sound along the pipe, with its share of the energy.
func FlankingDoubt(engine string, share spectrum.Bands) Uncertain {
	u := Uncertain{Term: "flanking along the pipe", Key: "flanking/" + engine, Source: flankingSource}
	for b := range u.SD {
		u.SD[b] = pipeFlankingSD * spectrum.Power(share[b])
	}
	return u
}
