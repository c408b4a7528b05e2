package chain

import (
	"fmt"
	"math"

	"hushwake/silencer/doubt"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Standard deviations of what water does to sound, dB by octave, judgement: the spread over drops, entrained share,
// drag at high frequency and fog.
var (
	sprayDoubt = spectrum.Bands{.4, .4, .4, .4, .4, .5, .6, .8, 1.2}
	hoseDoubt  = spectrum.Bands{.6, .6, .6, .6, .7, .8, 1.1, 1.6, 2.2} // over 3 m
	riserDoubt = spectrum.Fill(1.3)                                    // over 0.9 m, with plugs
	wetDoubt   = spectrum.Fill(2.5)                                    // all of it together
)

// WetUnproven is the cause of error that all wet lines share.
const WetUnproven = "no boat measured wet and dry"

// HoseWalls are the walls of a line's hoses up to here: they share one stiffness, so each adds what the whole takes more.
type HoseWalls struct {
	take     wet.WallTake
	loss, sd spectrum.Bands
}

// Give is the wall of a hose, as energy beside the chain.
func (a *Chain) Give(t wet.Tube) {
	if a.hot || a.WallLoss == fourpole.Lossless || t.Length <= 0 {
		return
	}
	if err := t.Check(); err != nil {
		a.Err = err
		return
	}
	var past spectrum.Bands
	if a.hoses != nil {
		past = a.hoses.loss
	}
	m := a.End(t.Bore, 0.5).Medium
	a.hoses = a.walled(OneMoreHose{a.hoses, t, m.Density, m.SoundSpeed})
	more := a.hoses.loss.Minus(past)
	a.TakeOut(more)
	if a.isRead() {
		a.Note(wallWords(t, more))
	}
}

// OneMoreHose is a hose behind others, with the gas in it.
type OneMoreHose struct {
	past *HoseWalls
	wet.Tube
	density, speed float64
}

// walled are the walls of hoses and one more, worked out once for all chains of the line.
func (c *Setting) walled(h OneMoreHose) *HoseWalls {
	if c.Memo[h] == nil {
		w := &HoseWalls{}
		if h.past != nil {
			w.take = h.past.take
		}
		w.take.Add(h.Tube, h.density, h.speed)
		w.loss, w.sd = w.take.Loss()
		c.Memo[h] = w
	}
	return c.Memo[h]
}

// wallWords says what a hose's wall takes and how little is known of it.
func wallWords(t wet.Tube, b spectrum.Bands) string {
	known := "its stiffness is not known within a factor of 2.5"
	if t.Kind != wet.HoseUnknown {
		known = fmt.Sprintf("%s, its stiffness is known within a factor of 2", t.Kind)
	}
	known = fmt.Sprintf("it rings somewhere near %.0f Hz; %s, so the loss is spread over octaves", math.Round(t.Ring()/10)*10, known)
	first, last, low, high := -1, 0, math.Inf(1), 0.0
	for i, v := range b {
		if v >= 1 {
			if first < 0 {
				first = i
			}
			last, low, high = i, math.Min(low, v), math.Max(high, v)
		}
	}
	switch {
	case first < 0:
		return fmt.Sprintf("the rubber wall takes less than 1 dB in every octave (%s)", known)
	case first == last:
		return fmt.Sprintf("the rubber wall takes %.0f dB at %s (%s)", high, hertz(first), known)
	}
	return fmt.Sprintf("the rubber wall takes %s dB between %s and %s (%s)", whole(low, high), hertz(first), hertz(last), known)
}

func whole(low, high float64) string {
	if math.Round(low) == math.Round(high) {
		return fmt.Sprintf("%.0f", low)
	}
	return fmt.Sprintf("%.0f-%.0f", low, high)
}

func hertz(band int) string {
	if f := spectrum.Nominal[band]; f >= 1000 {
		return fmt.Sprintf("%.0f kHz", f/1000)
	}
	return fmt.Sprintf("%g Hz", spectrum.Nominal[band])
}

func span(low, high float64) string {
	if math.Abs(high-low) < 0.05 {
		return fmt.Sprintf("%.1f", high)
	}
	return fmt.Sprintf("%.1f-%.1f", low, high)
}

// tookRange is the least and the most that a piece takes between matched ends at the octaves, over another, dB.
func tookRange(p, over fourpole.Piece, end fourpole.End) (low, high float64) {
	low = math.Inf(1)
	for _, hz := range spectrum.Exact {
		v := p.At(2*math.Pi*hz).Between(end, end).TransmissionLoss()
		if over != nil {
			v -= over.At(2*math.Pi*hz).Between(end, end).TransmissionLoss()
		}
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return math.Max(0, low), math.Max(0, high)
}

// noteRun says what the water in a run takes, and how sure that is.
func (a *Chain) noteRun(r fourpole.Run, line fourpole.Line, f wet.Flow, lost, rise float64) {
	dry, err := fourpole.NewDuct(r.End.Medium, r.Bore, r.Length, r.End.Mach, fourpole.ViscoThermal)
	if err != nil {
		a.Err = err
		return
	}
	if !a.isRead() {
		return
	}
	low, high := tookRange(line, dry, r.End)
	if rise > 0 {
		a.doubt("wet line", "water in a riser", riserDoubt.Times(rise/0.9), said.Textf("judgement: drag and plugs of a riser, 1.3 dB over {0.9 m}"))
	}
	if level := r.Length - rise; level > 0 {
		a.doubt("wet line", "water in a hose", hoseDoubt.Times(level/3), said.Textf("judgement: drag, drops and fog in wet hose, 0.6 to 2.2 dB over {3 m}"))
	}
	if rise > 0 {
		a.Note(said.Textf("lifting %.0f L/min over {%.2g m} costs {%.1f kPa}, which damps the sound by %s dB in every octave", f.Water/f.WaterDensity*6e4, rise, lost/1e3, span(low, high)))
		return
	}
	text := said.Textf("water in the gas takes %s dB (drag as of its back pressure of {%.2g kPa}", span(low, high), lost/1e3)
	if e := f.Entrained(); e >= 0.005 {
		text += said.Textf(", drops of {%.1f mm}, %.0f %% of the water", 1e3*f.DropSize(), 100*e)
	}
	a.Note(text + ")")
}

// doubt adds to the doubt of a key: what shares it moves together.
func (a *Chain) doubt(term, key string, sd spectrum.Bands, source string) {
	sd = sd.Times(a.Weight)
	for i := range a.doubts {
		if a.doubts[i].Key == key {
			a.doubts[i].SD = a.doubts[i].SD.Plus(sd)
			return
		}
	}
	a.doubts = append(a.doubts, doubt.Doubt{Term: term, Key: key, SD: sd, Source: source})
}

// closeWalls enters the doubt of the walls of the hoses, which share one stiffness.
func (a *Chain) closeWalls() {
	if a.hoses != nil {
		a.doubt("hose wall", "hose wall", a.hoses.sd, "spread over the stiffness of the wall, known within a factor of 2.5 (judgement)")
		a.hoses = nil
	}
}

// AllDoubts are those of the line: its parts, the wall of its hoses and what all wet lines share.
func (a *Chain) AllDoubts() []doubt.Doubt {
	a.closeWalls()
	all := a.doubts[:len(a.doubts):len(a.doubts)]
	if a.Gas.Last.Wet {
		all = append(all, doubt.Doubt{Term: "wet line", Key: WetUnproven, SD: wetDoubt, Source: "judgement: " + WetUnproven})
	}
	return all
}
