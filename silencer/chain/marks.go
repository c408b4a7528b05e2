package chain

import "hushwake/silencer/fourpole"

// AllMarks adds the marks of a chain in order, those inside branches after that of their parallel part.
func (a *Chain) AllMarks(list []Mark) []Mark {
	for _, m := range a.Marks {
		list = append(list, m)
		for _, b := range m.Branches {
			list = b.AllMarks(list)
		}
	}
	return list
}

// Along gives the matrices of a chain and keeps, by mark, the transmission loss from its head to there, dB; those of
// branches from theirs.
func (a *Chain) Along(g *fourpole.Grid) []fourpole.Matrix {
	cuts, with := make([]int, len(a.Marks)+1), make([]fourpole.Matrix, g.Len())
	a.Before = make([][]float64, len(a.Marks))
	for k, m := range a.Marks {
		cuts[k], a.Before[k] = m.Pieces, make([]float64, g.Len())
		for _, b := range m.Branches {
			b.Along(g)
		}
	}
	cuts[len(a.Marks)] = len(a.Pieces)
	g.Along(a.Pieces, cuts, func(k, from int, m []fourpole.Matrix) {
		if k == len(a.Marks) {
			copy(with[from:], m)
			return
		}
		for i := range m {
			if a.Marks[k].Pieces > 0 {
				a.Before[k][from+i] = m[i].Between(a.First, a.Marks[k].End).TransmissionLoss()
			}
		}
	})
	return with
}

// stated is the sum of the losses that come in octaves, dB.
func (a *Chain) StatedAt(hz float64) (db float64) {
	for _, s := range a.Stated {
		db += s.at(hz)
	}
	return db
}
