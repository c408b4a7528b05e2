package silencer

import "hushwake/silencer/fourpole"

// allMarks adds the marks of a chain in order, those inside branches after that of their parallel part.
func (a *chain) allMarks(list []mark) []mark {
	for _, m := range a.marks {
		list = append(list, m)
		for _, b := range m.branches {
			list = b.allMarks(list)
		}
	}
	return list
}

// along gives the matrices of a chain and keeps, by mark, the transmission loss from its head to there, dB; those of
// branches from theirs.
func (a *chain) along(g *fourpole.Grid) []fourpole.Matrix {
	cuts, with := make([]int, len(a.marks)+1), make([]fourpole.Matrix, g.Len())
	a.before = make([][]float64, len(a.marks))
	for k, m := range a.marks {
		cuts[k], a.before[k] = m.pieces, make([]float64, g.Len())
		for _, b := range m.branches {
			b.along(g)
		}
	}
	cuts[len(a.marks)] = len(a.pieces)
	g.Along(a.pieces, cuts, func(k, from int, m []fourpole.Matrix) {
		if k == len(a.marks) {
			copy(with[from:], m)
			return
		}
		for i := range m {
			if a.marks[k].pieces > 0 {
				a.before[k][from+i] = m[i].Between(a.first, a.marks[k].end).TransmissionLoss()
			}
		}
	})
	return with
}

// stated is the sum of the losses that come in octaves, dB.
func (a *chain) statedAt(hz float64) (db float64) {
	for _, s := range a.stated {
		db += s.at(hz)
	}
	return db
}
