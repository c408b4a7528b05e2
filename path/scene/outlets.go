package scene

import (
	"math"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/silencer/wet"
	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// otherPipes adds the pipes of the other banks: the source and the line are those of one pipe.
func otherPipes(r path.ExhaustResult) []path.Step {
	n := r.Source.Pipes
	if n < 2 {
		return nil
	}
	return []path.Step{{
		Name: "all pipes", Cited: published.By("10 lg of the number of pipes, each with a line alike beside it", "energy sum of equal sources", "derived"), Bands: spectrum.Fill(n.Level()),
	}}
}

// outletEmitter is the end of the line: source level, loss of the line, floor of flow noise. The doubts of source
// and line act with their share of the energy beside the flow noise.
func outletEmitter(e *path.Engine, x *path.Exhaust, r path.ExhaustResult) emitter {
	source := partStep("exhaust sound power, unsilenced", "source level", e, r.Source.Exhaust.Part, e.ExhaustLevel != nil)
	source.Uncertain = append(source.Uncertain, orderPattern(e.Name))
	after := r.Unsilenced.Minus(r.Acoustics.InsertionLoss)
	floor := path.Step{
		Name: "flow noise added at the outlet", Cited: r.Acoustics.Noise,
		Bands:     r.OutletPower.Minus(after),
		Uncertain: []path.Uncertain{flowNoise(e.Name, r)},
	}
	steps := []path.Step{source.Sharing(after.Minus(r.OutletPower)), lineStep(e, x, r).Sharing(after.Minus(r.OutletPower)), floor}
	steps = append(steps, otherPipes(r)...)
	steps = append(steps, underwater(x, r)...)
	at := path.Point(x.Line.Outlet.At)
	em := newEmitter(e.Name+" exhaust", "outlet", path.Outside, at, steps...)
	em.engine, em.way, em.outlet, em.facing, em.bore = e.Name, path.ByOutlet, true, x.Line.Outlet.Pointing, x.Line.Outlet.Bore
	broad := spectrum.SumBands(r.Source.Broadband.Minus(r.Acoustics.BroadbandLoss), r.Acoustics.SelfNoise)
	em.tones = tones.New(r.Source.Orders, r.Acoustics.LineLoss, broad, r.OutletPower)
	if em.bore == 0 {
		em.bore = r.Running.OutletBore
	}
	return em
}

func lineStep(e *path.Engine, x *path.Exhaust, r path.ExhaustResult) path.Step {
	a := r.Acoustics
	notes := a.Notes
	if x.Line.Wet() {
		notes = append(notes[:len(notes):len(notes)], path.WetUnproven.Text+" A reading with the engine running replaces most of it.")
	}
	if text := path.FlankingNote(r.AlongPipe); text != "" {
		notes = append(notes[:len(notes):len(notes)], text)
	}
	return path.Step{
		Name: "insertion loss of the line", Cited: a.Cited,
		Bands: spectrum.Bands{}.Minus(a.InsertionLoss), Notes: notes,
		Uncertain: append(lineUncertain(a),
			path.Uncertain{Term: "source impedance", Key: "source impedance/" + e.Name, SD: a.ImpedanceSD,
				Source: "spread between three source impedances"}, path.FlankingDoubt(e.Name, r.AlongPipe)),
	}
}

// underwater is what the water at the mouth takes, by its depth and the waves; nothing well above it.
func underwater(x *path.Exhaust, r path.ExhaustResult) []path.Step {
	o, m := x.Line.Outlet, r.Running
	mouth := wet.Mouth{Bore: m.OutletBore, Depth: -o.Height(), Waves: o.Waves, Gas: m.OutletVelocity * math.Pi / 4 * m.OutletBore * m.OutletBore,
		GasDensity: m.OutletGas.Density, Mach: m.OutletVelocity / m.OutletGas.SoundSpeed}
	if mouth.Waves == 0 {
		mouth.Waves = wet.UsualWaves
	}
	if mouth.Check() != nil {
		return nil
	}
	loss, sd, _ := mouth.Loss()
	if loss < 0.001 {
		return nil
	}
	return []path.Step{{
		Name:  "outlet at the water",
		Cited: published.By("-10 lg of the mean over the waves of (1 - h/d_b) 4 s/(1 + s)^2 (1 + M(1/s^2 - 1)/2)^-2 + h/d_b 10^-2, open share s, water h over the mouth, bubbles d_b = 1.295 (Q^2/g)^(1/5)", "Davidson and Schueler 1960 for the bubbles (from memory); 20 dB for a closed mouth: judgement, the plane gas-water step would give 29.8 dB", "judgement"), Bands: spectrum.Fill(-loss), Notes: []string{mouthWords(mouth)},
		Uncertain: []path.Uncertain{{Term: "wet line", Key: "outlet at the water", SD: spectrum.Fill(sd), Source: "judgement: 1.5 dB awash, 6 dB under water"}},
	}}
}

// mouthWords says how the water stands at an outlet and what that does.
func mouthWords(m wet.Mouth) string {
	top := m.Depth - m.Bore/2
	switch d := m.Bubble(); {
	case top <= 0:
		return "the water covers the mouth in part or with the waves: awash is no silencer"
	case d > top:
		return said.Textf("bubbles are {%.2f m}, deeper than the outlet lies: the sound gets out between them", d)
	default:
		return said.Textf("bubbles are {%.2f m} and close {%.2f m} under water: they hold the sound back, and make noise of their own", d, top)
	}
}
