package enquiry

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Markdown writes the request.
func (w *Enquiry) Markdown(u form.Units) string {
	var b strings.Builder
	e := w.exhaust(w.with)
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("# Request for a quotation: exhaust silencer\n")
	line("For: %s\n", plainText(w.boat.Text))
	line("Please answer every point; an answer \"as standard\" can't be compared with other offers.\n")
	line("## The engine and its exhaust\n")
	line("| | rated | running |\n|---|---|---|")
	line("| power | %s | %s |", u.Show(w.engine.Rated.Power, quantity.Power), u.Show(e.Source.Duty.Power, quantity.Power))
	line("| speed | %.0f rpm | %.0f rpm |", w.engine.Rated.Speed, e.Source.Duty.Speed)
	line("| firing frequency | %.0f Hz | %.0f Hz |", e.RatedSource.FiringFrequency, e.Source.FiringFrequency)
	each := ""
	if n := e.Source.Pipes; n > 1 {
		each = fmt.Sprintf(", each of %d pipes", n)
	}
	line("| exhaust flow%s | %s | %s |", each, u.Show(float64(e.RatedSource.PipeFlow), quantity.MassFlow), u.Show(float64(e.Source.PipeFlow), quantity.MassFlow))
	line("| gas at the silencer | %s | %s |", u.Show(w.rated.GasTemperature, quantity.Temperature), u.Show(w.running.GasTemperature, quantity.Temperature))
	line("| hot volume flow there | %s | %s |\n", hotFlow(u, w.rated, e.RatedSource.PipeFlow), hotFlow(u, w.running, e.Source.PipeFlow))
	line("## What it has to do\n")
	line("%s", w.pressureClause(u))
	line("- Insertion loss wanted, hot, with flow, by octave band (dB, at least):\n")
	line("%s\n", bandsMarkdown(w.loss))
	line("  %s.", w.why)
	line("- Place of judgement: %s, at the running duty above, doors as they are used under way.\n", plainText(w.boat.Listeners[w.listener].Name))
	w.fit(&b, u)
	w.terms(&b, u)
	w.cutList(&b, u)
	return b.String()
}

func hotFlow(u form.Units, r silencer.Row, flow source.PipeFlow) string {
	area := math.Pi / 4 * r.Bore * r.Bore
	if area == 0 {
		return "-"
	}
	// 353.4/T kg/m3 is exhaust gas at one atmosphere within 0.2 %
	return u.Show(float64(flow)*r.GasTemperature/353.4, quantity.VolumeFlow)
}

func bandsMarkdown(v spectrum.Bands) string {
	head, rule, row := "|", "|", "|"
	for i, f := range spectrum.Nominal {
		head += fmt.Sprintf(" %g Hz |", f)
		rule += "---|"
		row += fmt.Sprintf(" %.0f |", v[i])
	}
	return head + "\n" + rule + "\n" + row
}

// fit says what room there is.
func (w *Enquiry) fit(b *strings.Builder, u form.Units) {
	base := w.at.Element.Base()
	fmt.Fprintf(b, "## Room and connections\n\n")
	fmt.Fprintf(b, "- Ports: in and out to suit pipe of %s bore; state adapters and their loss if yours differ.\n", u.Show(w.at.Bore(), quantity.Length))
	if room, of := w.clearSpace(); len(room) > 0 {
		var parts []string
		for _, v := range room {
			parts = append(parts, u.OnRule(v))
		}
		fmt.Fprintf(b, "- Clear space, lagging included: %s%s. Leave %s each side for air, growth and hands, or say what you need.\n", strings.Join(parts, " x "), of, u.OnRule(0.05))
	} else {
		fmt.Fprint(b, "- Clear space: to be agreed; state length, outer size over lagging, mass and the room to draw it out.\n")
	}
	if len(w.boat.Hatch) == 2 {
		fmt.Fprintf(b, "- It has to pass a hatch of %s x %s.\n", u.OnRule(w.boat.Hatch[0]), u.OnRule(w.boat.Hatch[1]))
	}
	lag := base.Lagging
	if lag.Thickness > 0 {
		fmt.Fprintf(b, "- Lagging: %s of %s or better, outside no hotter than %s where it can be touched; say whether it is in the price.\n",
			u.OnRule(lag.Thickness), plainText(lag.Material), u.Show(65+273.15, quantity.Temperature))
	} else {
		fmt.Fprint(b, "- Lagging: say what you offer, its thickness, its price, and the outer temperature at the rated duty.\n")
	}
	fmt.Fprint(b, "- Material and wall of shell and inner parts; drain; whether soot or wet gas spoils the filling.\n\n")
}

// clearSpace is the envelope of the element, or of what another layout puts in its place, and of which.
func (w *Enquiry) clearSpace() (room []float64, of string) {
	base := w.at.Element.Base()
	if len(base.Envelope) > 0 {
		return base.Envelope, ""
	}
	for _, l := range w.boat.Layouts {
		x, ok := l.Exhaust(w.engine.Name)
		if !ok || w.at.At >= len(x.Line.Elements) {
			continue
		}
		if other := x.Line.Elements[w.at.At].Base(); other.In == base.In && len(other.Envelope) > 0 {
			return other.Envelope, fmt.Sprintf(" (as for layout \"%s\")", plainText(l.Name))
		}
	}
	return nil, ""
}

// terms are delivery and the clause that an offer is held to.
func (w *Enquiry) terms(b *strings.Builder, u form.Units) {
	fmt.Fprint(b, "## Please state\n\n")
	for _, s := range []string{
		"Insertion loss by octave band 31.5 Hz to 8 kHz, the test or calculation it comes from, and with which flow and temperature.",
		"Pressure loss with its basis: hot exhaust at the flow above, or cold air, and then at equal mass flow or equal volume flow.",
		"Flow noise at the outlet at rated flow.",
		"Price of the silencer, flanges, gaskets, lagging, brackets and freight, each by itself; what is not included.",
		"Delivery time, and how long the price holds.",
		"Mass, length, outer size over lagging, ports.",
	} {
		fmt.Fprintf(b, "- %s\n", s)
	}
	fmt.Fprint(b, "\n## Test after fitting\n\n")
	fmt.Fprintf(b, "- %s\n", w.test(u))
	fmt.Fprint(b, "- Back pressure at the engine's tap at rated speed and load, engine warm: not above the figure above plus the rest of the line.\n")
	fmt.Fprint(b, "- The offer is held to the octave losses and the pressure loss it states; put right or taken back if they are missed by more than 3 dB in the octave of the firing frequency or by 20 % in pressure.\n\n")
}

// test is the level that the wanted losses bring, how near to it the meter has to read, and what it is today, or with plain
// pipe where the part that is drawn does what is wanted.
func (w *Enquiry) test(u form.Units) string {
	within := math.Hypot((w.fitted.High-w.fitted.Low)/2, 2)
	against, as := w.Today.Level, "as the line stands it is"
	if w.drawn {
		against, as = w.bare.Level, "with plain pipe in its place it would be"
	}
	text := fmt.Sprintf("Level at %s, same meter, seat, speed, load, doors and weather before and after: with the wanted losses in place we expect %.0f dB(A), within %.0f dB of it; %s %.0f dB(A). ",
		plainText(w.boat.Listeners[w.listener].Name), spectrum.Whole(w.fitted.Level), within, as, spectrum.Whole(against))
	if g, ok := w.at.Element.(*silencer.Given); ok && g.Offer != "" && w.drawn {
		text += "That the losses are kept is taken as certain here; the comparison of offers counts besides that an offer may miss its own figures. "
	}
	if math.Abs(against-w.fitted.Level) <= within {
		text += "That alone can't tell the two apart: the octave losses are checked too, at the outlet, "
	} else {
		text += "If it is missed by more, the octave losses are checked at the outlet, "
	}
	return text + metresOff(1, u) + " from the rim and 45 degrees off the axis."
}

// cutList lists what the line needs beside the element, the order of fitting and what must be tight.
func (w *Enquiry) cutList(b *strings.Builder, u form.Units) {
	fmt.Fprint(b, "## Cut list of the line (owner's part)\n\n| part | size | quantity |\n|---|---|---|\n")
	for _, c := range w.cuts(u) {
		fmt.Fprintf(b, "| %s | %s | %s |\n", c[0], c[1], c[2])
	}
	fmt.Fprint(b, "\n## Order of fitting\n\n")
	for i, s := range fittingOrder(w) {
		fmt.Fprintf(b, "%d. %s\n", i+1, s)
	}
	fmt.Fprint(b, "\n## What must be tight\n\n")
	for _, s := range sealList(w) {
		fmt.Fprintf(b, "- %s\n", s)
	}
	fmt.Fprint(b, "\nExhaust gas kills without smell: carbon monoxide alarms in every sleeping space, joints checked with smoke after fitting. "+
		"Hot work, hull openings and class items need a licensed person; the engine maker's limits and local codes come before this paper, which is an estimate and no approval.\n")
}
