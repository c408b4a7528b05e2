package report

import (
	"fmt"
	"math"
	"sort"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/silencer"
)

// cuts adds up pipe, hose, bends, bellows, mat and duct of the layout.
func (w *Enquiry) cuts(u form.Units) [][3]string {
	l := w.at.Layout
	sums := map[[2]string]float64{}
	count := map[[2]string]int{}
	mat := map[string]float64{}
	for range max(1, w.exhaust(w.with).Source.Pipes) { // a line for each
		for _, e := range l.Exhausts[w.at.Exhaust].Line.Elements {
			cut(u, e, sums, count, mat)
		}
	}
	var out [][3]string
	for k, v := range sums {
		out = append(out, [3]string{k[0], k[1], metres(v)})
	}
	for k, n := range count {
		out = append(out, [3]string{k[0], k[1], fmt.Sprint(n)})
	}
	for k, v := range mat {
		out = append(out, [3]string{"lagging", k, squareMetres(v)})
	}
	out = append(out, boxCuts(l, u)...)
	sort.Slice(out, func(i, j int) bool { return out[i][0]+out[i][1] < out[j][0]+out[j][1] })
	return out
}

func metres(v float64) string       { return fmt.Sprintf("%.2f m, add 5 %% for cuts", v) }
func squareMetres(v float64) string { return fmt.Sprintf("%.2f m2, add 10 %% for laps", v) }

func cut(u form.Units, e silencer.Element, sums map[[2]string]float64, count map[[2]string]int, mat map[string]float64) {
	size := func(bore float64) string { return "bore " + u.Show(bore, boatfile.Length) }
	bends := func(bore float64, all []silencer.Bend) {
		for _, b := range all {
			count[[2]string{"bend", fmt.Sprintf("%s, %.0f deg, radius %s", size(bore), b.Angle*180/math.Pi, u.Show(b.Radius, boatfile.Length))}]++
		}
	}
	bore, length := 0.0, 0.0
	switch v := e.(type) {
	case *silencer.Pipe:
		bore, length = v.Bore+2*v.Wall, v.Length
		sums[[2]string{"pipe", size(v.Bore) + ", wall " + u.Show(v.Wall, boatfile.Length) + material(v.Material)}] += v.Length
		bends(v.Bore, v.Bends)
	case *silencer.Hose:
		sums[[2]string{"wet exhaust hose", size(v.Bore)}] += v.Length
		count[[2]string{"hose clamp, two each end", size(v.Bore)}] += 4
		bends(v.Bore, v.Bends)
	case *silencer.Bellows:
		bore, length = v.Bore, v.Length
		count[[2]string{"bellows", size(v.Bore) + ", length " + u.Show(v.Length, boatfile.Length)}]++
	case *silencer.Elbow:
		count[[2]string{"bend", fmt.Sprintf("%s, %.0f deg, radius %s", size(v.Bore), v.Angle*180/math.Pi, u.Show(v.Radius, boatfile.Length))}]++
		bore, length = v.Bore, v.Angle*math.Max(v.Radius, v.Bore/2)
	case *silencer.Parallel:
		for _, branch := range v.Branches {
			for _, in := range branch {
				cut(u, in, sums, count, mat)
			}
		}
	}
	if g := e.Base().Lagging; g.Thickness > 0 && length > 0 {
		mat[u.Show(g.Thickness, boatfile.Length)+" "+plainText(g.Material)] += math.Pi * (bore + g.Thickness) * length
	}
}

func material(m string) string {
	if m == "" {
		return ""
	}
	return ", " + plainText(m)
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
				out = append(out, [3]string{"box lining, " + plainText(x.Name), u.Show(x.Thickness, boatfile.Length) + " " + plainText(x.Lining), squareMetres(area)})
			}
			for _, p := range x.Openings {
				if d := p.Duct; d != nil {
					out = append(out, [3]string{"lined duct, " + plainText(x.Name) + " " + p.Role,
						fmt.Sprintf("%s x %s clear, %s %s", u.Show(d.Size[0], boatfile.Length), u.Show(d.Size[1], boatfile.Length), u.Show(d.Thickness, boatfile.Length), plainText(d.Lining)),
						fmt.Sprintf("%.2f m, %d bends", d.Length, d.Bends)})
				}
			}
		}
	}
	return out
}

// wetLine tells whether water is injected in the line.
func wetLine(w *Enquiry) bool {
	for _, e := range w.at.Layout.Exhausts[w.at.Exhaust].Line.Elements {
		if e.Kind() == "water_injection" {
			return true
		}
	}
	return false
}

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
