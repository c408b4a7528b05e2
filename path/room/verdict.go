package room

import (
	"math"

	"hushwake/source/said"
)

// judge keeps air to breathe and air to cool apart, and gathers the warnings.
func (a *Air) judge(v Ventilation, n network) {
	a.choked(v, n)
	if v.HolesUnknown {
		a.Verdicts = append(a.Verdicts, Verdict{"unknown", said.Textf("unknown: the holes of the box are not stated, so whether its engine gets air enough is not judged; {%.0f cm2} of inlet and {%.0f cm2} of outlet do", a.InletAreaNeeded*1e4, a.OutletAreaNeeded*1e4)})
	} else {
		a.starved(n)
		a.cooked(v)
	}
	if len(a.Verdicts) == 0 {
		a.Verdicts = []Verdict{{"ok", said.Textf("combustion air comes in and the box stays within {%.0f K} of the outside", a.AllowedRise)}}
	}
	if a.Rise > tooHot {
		a.Warnings = append(a.Warnings, said.Textf("a rise above {60 K} only says far too hot: hot air takes less heat from the engine, which trips or loses power first (figure bent towards {150 K}; judgement)"))
	}
	if v.Fan == nil && a.DraughtArea > 0 && a.InletArea < a.DraughtArea && a.Rise > a.AllowedRise {
		a.Warnings = append(a.Warnings, said.Textf("without a fan, draught over {%.1f m} of height would need about {%.0f cm2} each of inlet and outlet", v.Height, a.DraughtArea*1e4))
	}
	if v.Fan != nil {
		a.Warnings = append(a.Warnings, v.Fan.remarks(a.Flow)...)
	}
	if a.FanPressure > MostFan {
		a.Warnings = append(a.Warnings, said.Textf("no fan pushes the air needed through these openings, {%.0f Pa}: they are too small; {%.0f cm2} of inlet and {%.0f cm2} of outlet do", a.FanPressure, a.InletAreaNeeded*1e4, a.OutletAreaNeeded*1e4))
	}
	if v.Height < 0 {
		a.Warnings = append(a.Warnings, "the outlet's mouth lies below the inlet: no draught where the fan stops")
	}
	if a.InletArea <= 0 || a.OutletArea <= 0 {
		a.Warnings = append(a.Warnings, "no inlet or no outlet stated: the fan pressure needed is reckoned with one of the area needed")
	}
	a.Warnings = append(a.Warnings,
		"the engine maker's limits for intake and surrounding air rule; with petrol only ignition-protected fans, and never draw the box's air from the bilge")
}

// starved: the engine's own draw meets more resistance than starvingPa, or finds no way in.
func (a *Air) starved(n network) {
	if n.combustion <= 0 {
		return
	}
	c := n.in + n.out // all holes let in what the engine draws
	p := headLoss(n.combustion, c)
	for _, r := range n.rooms {
		if c > 0 && r.in+r.out > 0 {
			p += headLoss(n.combustion*(r.in+r.out)/c, r.open)
		}
	}
	switch {
	case c <= 0:
		a.Verdicts = append(a.Verdicts, Verdict{"starved", said.Textf("starved: no opening lets in the {%.4f m3/s} that the engine burns", n.combustion)})
	case p > starvingPa:
		a.Verdicts = append(a.Verdicts, Verdict{"starved", said.Textf("starved: drawing {%.4f m3/s} through the openings takes %s (more than {%.0f Pa}; common practice)", n.combustion, pascals(p), starvingPa)})
	}
}

// choked: the engine's own pipe takes too much.
func (a *Air) choked(v Ventilation, n network) {
	if v.AirPipe == nil || !v.OwnAirPipe {
		return
	}
	if p := v.AirPipe.Loss(a.CombustionAir, n.density); p > starvingPa {
		a.Verdicts = append(a.Verdicts, Verdict{"starved", said.Textf("starved: drawing {%.4f m3/s} through its air pipe takes %s (more than {%.0f Pa}; common practice)", a.CombustionAir, pascals(p), starvingPa)})
	}
}

// Beside adds to what is said of a box at rated how it does at another duty.
func (a *Air) Beside(running Air) {
	if math.Abs(running.Rise-a.Rise) < 0.5 {
		return
	}
	for i := range a.Verdicts {
		if a.Verdicts[i].Code == "unknown" {
			continue
		}
		a.Verdicts[i].Text += said.Textf(" (at rated; at the running duty the air warms by {%.0f K})", running.Rise)
	}
}

// cooked: the air that passes does not carry the heat off.
func (a *Air) cooked(v Ventilation) {
	if a.Rise <= cookedSlack*a.AllowedRise {
		return
	}
	in := a.Inlet - a.Outside
	warm := in > 0.5
	text := said.Textf("cooked: the air in it warms by {%.0f K}. Of {%.0f W} the {%.3f m3/s} that passes carries {%.0f W}", a.Rise, a.Heat, a.Flow, a.ByAir)
	if warm {
		text += said.Textf(" as it warms from {%.0f K} to {%.0f K} over the outside", in, a.Rise)
	}
	if a.ByWalls >= 0.5 {
		text += said.Textf(", the walls {%.0f W}", a.ByWalls)
	}
	if a.Kept >= 0.5 {
		text += said.Textf(", and air that hot does not take {%.0f W} from the engine", a.Kept)
	}
	switch {
	case warm && a.Flow >= a.Needed:
		text += said.Textf("; {%.3f m3/s} would keep that rise within {%.0f K} if it came from outdoors, so lead it from there", a.Needed, a.AllowedRise)
	case warm:
		text += said.Textf("; {%.3f m3/s} from outdoors is needed to keep that rise within {%.0f K}", a.Needed, a.AllowedRise)
	default:
		text += said.Textf("; {%.3f m3/s} is needed to keep that rise within {%.0f K}", a.Needed, a.AllowedRise)
	}
	if v.OwnAirPipe {
		text += "; its own air pipe feeds the engine but carries no heat off"
	}
	a.Verdicts = append(a.Verdicts, Verdict{"cooked", text})
}

// stopped is the box with the fan standing still; its blades are not counted as a resistance.
func (n network) stopped(allowed float64) *Stopped {
	s := &Stopped{Flow: n.flow(nil)}
	s.Rise = n.warmer(s.Flow)
	s.Text = said.Textf("with the fan stopped {%.3f m3/s} passes and the air warms by {%.0f K}", s.Flow, s.Rise)
	if s.Rise > cookedSlack*allowed {
		s.Text += ": the engine must be stopped or unloaded at once; fit a temperature or flow alarm"
	} else {
		s.Text += ": draught alone carries the heat off"
	}
	return s
}

// pascals prints a pressure; where there is no way at all there is no figure.
func pascals(p float64) string {
	if p >= noWay {
		return "more than any engine draws"
	}
	return said.Textf("{%.0f Pa}", p)
}
