package record

import (
	"math"

	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// A row lies far outside where it is off by more than farHalves half-widths of its band, taken no
// narrower than a careful reading is good for, or by more than farDB whatever the band is: a hundredfold
// of power is no matter of doubt. Judgement.
const (
	farHalves = 3.0
	farDB     = 20.0
	readingDB = 2.0
)

func scoreRows(c *boatfile.Case, probes []probe, levels [][]float64) []Row {
	rows := make([]Row, len(c.Rows))
	values := make([][]float64, len(c.Rows))
	for p, q := range probes {
		switch {
		case q.octave >= 0:
			rows[q.row].Octaves = append(rows[q.row].Octaves, octave(q.octave, c.Rows[q.row].Bands[q.octave], levels[p]))
		case q.less:
			for d, v := range levels[p] {
				values[q.row][d] -= v
			}
		default:
			values[q.row] = levels[p]
		}
	}
	for i := range rows {
		rows[i].CaseRow, rows[i].Case = c.Rows[i], c
		rows[i].score(values[i])
	}
	return rows
}

func band(v []float64) (low, median, top float64) {
	return draws.Quantile(v, 0.1), draws.Quantile(v, 0.5), draws.Quantile(v, 0.9)
}

func octave(b int, measured float64, v []float64) Octave {
	o := Octave{Hertz: spectrum.Nominal[b], Measured: measured}
	o.LowP, o.Predicted, o.Top = band(v)
	o.Inside = o.LowP <= measured && measured <= o.Top
	return o
}

// score sets the row's prediction, deviation and verdict. A limit counts on its own side alone.
func (r *Row) score(v []float64) {
	r.LowP, r.Predicted, r.Top = band(v)
	m := r.Measured()
	r.Deviation = r.Predicted - m
	r.Inside = r.LowP <= m && m <= r.Top
	switch {
	case r.Low == nil: // at most m
		r.Inside, r.Deviation = r.LowP <= m, math.Max(0, r.Deviation)
	case r.High == nil: // at least m
		r.Inside, r.Deviation = r.Top >= m, math.Min(0, r.Deviation)
	}
	half := math.Max(readingDB, (r.Top-r.LowP)/2)
	r.Far = !r.Inside && math.Abs(r.Deviation) > math.Min(farDB, farHalves*half)
}

func (rep *Report) sum() {
	rep.All, rep.Set = sumOf("all", rep.Rows, (*Row).Counted), sumOf("sets a constant", rep.Rows, func(r *Row) bool { return !r.Counted() })
	for _, g := range boatfile.CaseGroups {
		s := sumOf(g, rep.Rows, func(r *Row) bool { return r.Counted() && r.Group == g })
		if s.N > 0 {
			rep.Groups = append(rep.Groups, s)
		}
	}
}

func sumOf(name string, rows []Row, take func(*Row) bool) Sum {
	s := Sum{Group: name}
	var deviations []float64
	for i := range rows {
		r := &rows[i]
		if !take(r) {
			continue
		}
		s.N++
		if r.Inside {
			s.Inside++
		}
		if r.Limit() && r.Inside {
			s.Kept++
		}
		if r.Limit() {
			s.Limits++
			continue
		}
		deviations = append(deviations, r.Deviation)
	}
	s.Bias, s.Spread = meanAndSpread(deviations)
	return s
}

func meanAndSpread(v []float64) (mean, spread *float64) {
	if len(v) == 0 {
		return nil, nil
	}
	sum, squares := 0.0, 0.0
	for _, x := range v {
		sum += x
	}
	m := sum / float64(len(v))
	if len(v) == 1 {
		return &m, nil
	}
	for _, x := range v {
		squares += (x - m) * (x - m)
	}
	sd := math.Sqrt(squares / float64(len(v)-1))
	return &m, &sd
}
