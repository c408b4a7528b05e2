package panel

import (
	"math"
	"strconv"
	"strings"

	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// lowTaper spreads one mid-band coefficient over the bands: its room constant a/(1-a) is full from 500 Hz
// and falls to a quarter at 63 Hz and below (UFC 3-450-02, engine-room examples:
// R of 220 220 330 550 880 ft2 from 31 to 500 Hz).
func lowTaper(mid float64) (b spectrum.Bands) {
	share := spectrum.Bands{0.25, 0.25, 0.375, 0.625, 1, 1, 1, 1, 1}
	for i := range b {
		r := mid * share[i] // of R (1-mid)/S
		b[i] = r / (1 - mid + r)
	}
	return b
}

// complete fills nine bands from a row that ends at 8 kHz (9 or 8 or 7 values) or at 4 kHz (6 values, from 125 Hz).
func complete(row []float64) (b spectrum.Bands, ok bool) {
	switch len(row) {
	case 9:
		copy(b[:], row)
	case 8:
		copy(b[1:], row)
		b[0] = b[1] / 2
	case 7, 6:
		copy(b[2:], row)
		b[1], b[0] = b[2]/2, b[2]/4
		if len(row) == 6 {
			b[8] = b[7]
		}
	default:
		return b, false
	}
	return b, true
}

// Lining is a row of the table of absorbing surfaces.
type Lining struct {
	Name         string
	Aliases      []string
	Thickness    float64        // m; 0 = a surface
	Absorption   spectrum.Bands // random incidence
	Source, Mark string
}

// Linings lists the table of absorbing surfaces in its own order.
func Linings() []Lining {
	t, _ := builtIn()
	var all []Lining
	for _, l := range t.linings {
		all = append(all, Lining{l.name, l.aliases, l.thickness, l.alpha, l.source, l.mark})
	}
	return all
}

// AbsorptionOf is the random-incidence absorption coefficient by band of a lining such as "foam",
// "50 mm mineral wool" or "furnished cabin"; thickness in m, 0 = as written in front of the name, else as the row has it.
// Between two published thicknesses it is interpolated; outside them the row is shifted in
// frequency by the ratio of thickness, because a porous layer sees frequency times thickness.
// ok is false for an unknown name.
func (m *Materials) AbsorptionOf(name string, thickness float64) (alpha spectrum.Bands, source, mark string, ok bool) {
	name, written := leadingThickness(name)
	if thickness <= 0 {
		thickness = written
	}
	for i := len(m.Rows) - 1; i >= 0; i-- {
		if r := m.Rows[i]; len(r.Absorption) > 0 && named(name, r.Name, r.Aliases) {
			if b, ok := complete(r.Absorption); ok {
				l := lining{thickness: r.AbsThickness, alpha: b, source: r.Source, mark: r.Mark}
				return between([]lining{l}, thickness)
			}
		}
	}
	t, _ := builtIn()
	var rows []lining
	for _, l := range t.linings {
		if named(name, l.name, l.aliases) {
			rows = append(rows, l)
		}
	}
	return between(rows, thickness)
}

// AbsorptionOf asks the built-in table.
func AbsorptionOf(name string, thickness float64) (alpha spectrum.Bands, source, mark string, ok bool) {
	t, _ := builtIn()
	m := Materials{Rows: t.materials}
	return m.AbsorptionOf(name, thickness)
}

// between interpolates rows of one lining, thinnest first, to a thickness.
func between(rows []lining, thickness float64) (b spectrum.Bands, source, mark string, ok bool) {
	if len(rows) == 0 {
		return b, "", "", false
	}
	first, last := rows[0], rows[len(rows)-1]
	switch {
	case first.thickness == 0 || thickness <= 0:
		return last.alpha, last.source, last.mark, true
	case thickness < first.thickness*0.99:
		return first.shifted(thickness)
	case thickness > last.thickness*1.01:
		return last.shifted(thickness)
	}
	for i, r := range rows {
		if math.Abs(thickness-r.thickness) <= 0.01*r.thickness {
			return r.alpha, r.source, r.mark, true
		}
		if thickness < r.thickness {
			q := rows[i-1]
			x := math.Log(thickness/q.thickness) / math.Log(r.thickness/q.thickness)
			for k := range b {
				b[k] = (1-x)*q.alpha[k] + x*r.alpha[k]
			}
			return b, "between " + q.source + " and " + r.source, "derived", true
		}
	}
	return last.alpha, last.source, last.mark, true
}

// shifted reads the row at frequency times the ratio of thickness, in octaves.
func (l lining) shifted(thickness float64) (b spectrum.Bands, source, mark string, ok bool) {
	octaves := math.Log2(thickness / l.thickness)
	for i := range b {
		x := math.Max(0, math.Min(spectrum.N-1, float64(i)+octaves))
		j := min(int(x), spectrum.N-2)
		b[i] = l.alpha[j] + (x-float64(j))*(l.alpha[j+1]-l.alpha[j])
		if low := float64(i) + octaves; low < 0 {
			b[i] = l.alpha[0] * math.Exp2(low)
		}
	}
	return b, said.Textf("%s, shifted to {%.0f mm}", l.source, thickness*1e3), "derived", true
}

// leadingThickness splits "50 mm foam" into "foam" and 0.05 m; without a thickness it gives 0.
func leadingThickness(text string) (name string, m float64) {
	text = strings.TrimSpace(text)
	f := strings.Fields(text)
	if len(f) < 3 {
		return text, 0
	}
	v, err := strconv.ParseFloat(f[0], 64)
	unit, ok := map[string]float64{"mm": 1e-3, "cm": 1e-2, "m": 1, "in": 0.0254}[f[1]]
	if err != nil || !ok || !(v > 0) {
		return text, 0
	}
	return strings.Join(f[2:], " "), v * unit
}
