package enquiry

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/silencer"
	"hushwake/source/said"
)

// cuts adds up what the line needs beside the element, and what the boxes of the layout do.
func (w *Enquiry) cuts(u form.Units) [][3]string {
	l := w.at.Layout
	type item struct{ what, size, unit string }
	sums := map[item]float64{}
	for i, e := range l.Exhausts[w.at.Exhaust].Line.Elements {
		if i == w.at.At {
			continue
		}
		for _, c := range silencer.Cuts(e) {
			sums[item{plainText(c.What), cutSize(c, u), c.Unit}] += c.Amount
		}
	}
	lines := w.exhaust(w.with).Source.Pipes // a line for each
	var out [][3]string
	for k, v := range sums {
		out = append(out, [3]string{k.what, k.size, inTotal(lines.All(v), k.unit, u)})
	}
	out = append(out, boxCuts(l, u)...)
	sort.Slice(out, func(i, j int) bool { return out[i][0]+out[i][1] < out[j][0]+out[j][1] })
	return out
}

func inTotal(v float64, unit string, u form.Units) string {
	switch unit {
	case silencer.Metres:
		return metres(v, u) + ", add 5 % for cuts"
	case silencer.SquareMetres:
		return squareMetres(v, u)
	}
	return fmt.Sprintf("%.0f", v)
}

// metres keep two decimals, however short.
func metres(v float64, u form.Units) string {
	if u.System == quantity.Metric {
		return fmt.Sprintf("%.2f m", v)
	}
	return u.Show(v, quantity.Length)
}

// metresOff is a distance to measure at, whole metres.
func metresOff(m float64, u form.Units) string { return u.Local(said.Textf("{%.0f m}", m)) }

func squareMetres(v float64, u form.Units) string {
	if u.System == quantity.Metric {
		return fmt.Sprintf("%.2f m2, add 10 %% for laps", v)
	}
	return u.Show(v, quantity.Area) + ", add 10 % for laps"
}

// cutSize words the sizes that matter of a cut.
func cutSize(c silencer.Cut, u form.Units) string {
	if c.Unit == silencer.SquareMetres {
		return u.OnRule(c.Wall) + " " + plainText(c.Material)
	}
	var parts []string
	add := func(name string, m float64, show func(float64) string) {
		if m > 0 {
			parts = append(parts, name+" "+show(m))
		}
	}
	exact := func(m float64) string { return u.Show(m, quantity.Length) } // what is bought by it
	add("bore", c.Bore, exact)
	add("inside diameter", c.Diameter, exact)
	if c.Angle > 0 {
		parts = append(parts, fmt.Sprintf("%.0f deg", c.Angle*180/math.Pi))
	}
	add("radius", c.Radius, u.OnRule)
	add("wall", c.Wall, exact)
	add("length", c.Length, u.OnRule)
	if c.Material != "" {
		parts = append(parts, plainText(c.Material))
	}
	return strings.Join(parts, ", ")
}

// boxCuts are the mats and ducts of enclosures in use.
func boxCuts(l *path.Layout, u form.Units) (out [][3]string) {
	for i := range l.Engines {
		for _, x := range l.Enclosures {
			if l.Engines[i].Stopped || l.Engines[i].Enclosure != x.Name {
				continue
			}
			s := x.Size
			area := 2*(s[0]*s[2]+s[1]*s[2]) + s[0]*s[1]
			if x.Lining != "" {
				out = append(out, [3]string{"box lining, " + plainText(x.Name), u.OnRule(x.Thickness) + " " + plainText(x.Lining), squareMetres(area, u)})
			}
			for _, p := range x.Openings {
				if d := p.Duct; d != nil {
					out = append(out, [3]string{"lined duct, " + plainText(x.Name) + " " + p.Role,
						fmt.Sprintf("%s x %s clear, %s %s", u.OnRule(d.Size[0]), u.OnRule(d.Size[1]), u.OnRule(d.Thickness), plainText(d.Lining)),
						fmt.Sprintf("%s, bends: %d", metres(d.Length, u), d.Bends)})
				}
			}
		}
	}
	return out
}

// wetLine tells whether water is injected in the line.
func wetLine(w *Enquiry) bool { return w.at.Layout.Exhausts[w.at.Exhaust].Line.Wet() }

// fittingOrder is the usual sequence of the work (common practice).
func fittingOrder(w *Enquiry) []string {
	steps := []string{
		"Engine cold, stopped, batteries off. Have old lagging tested for asbestos before touching it.",
		"Measure and write down the levels and the back pressure as they are ('hushwake survey').",
		"Weld in a plug of 1/8 or 1/4 in for the manometer on a straight run near the engine.",
		"Hang the new part from its own brackets on soft mounts; no pipe weight on manifold or turbocharger, nothing touching the hull.",
		"Fit bellows next to the engine, without twist, with room to grow; then pipe from the engine outwards, gaskets new.",
	}
	if wetLine(w) {
		steps = append(steps, "Fit the injection after the highest dry point, hoses falling all the way, two clamps each end, alarm sensor on the first hose; check every height over the waterline heeled.")
	}
	return append(steps,
		"Run cold, then warm; tighten; check every joint with smoke; lag last, with an oil-tight cover.",
		"At rated speed and load read back pressure, then levels at the same seats; compare with the test above.")
}

func sealList(w *Enquiry) []string {
	list := []string{
		"Every flange and bellows of the dry run: gasket, even bolts, retighten after the first hot run.",
		"Where the pipe passes a deck or bulkhead: a collar that seals and lets the pipe grow.",
		"Bulkhead and hatch between engine space and living spaces: gaps, cable and pipe holes closed gas-tight.",
	}
	if wetLine(w) {
		list = append(list, "Hose ends, lift chamber lid and drains; the through-hull with its valve.")
	}
	for i := range w.at.Layout.Engines {
		if w.at.Layout.Engines[i].Enclosure != "" {
			list = append(list, "The box: lid gasket, cable and hose holes; only the inlet and the outlet may be open.")
			break
		}
	}
	return list
}

// plainText keeps names from breaking a Markdown table or starting markup.
func plainText(s string) string {
	return strings.NewReplacer("|", "/", "\n", " ", "\r", " ", "<", "(", ">", ")", "`", "'", "*", "", "_", " ", "[", "(", "]", ")", "#", "").Replace(s)
}
