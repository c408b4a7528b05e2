package silencer

// Along visits the elements of the line with their rows in a march of it and what gas meets them, K; those in branches
// after the parallel part that holds them.
func (l *Line) Along(m Marched, f func(e Element, r Row, gasIn float64)) {
	visit(l.Elements, m.Rows, m.InletTemperature, f)
}

func visit(elements []Element, rows []Row, t float64, f func(e Element, r Row, gasIn float64)) {
	for _, r := range rows {
		if r.Index > 0 && len(elements) > 0 {
			f(elements[0], r, t)
			visitBranches(elements[0].Within(), r.Branches, t, f)
			elements = elements[1:]
		}
		t = r.GasTemperature
	}
}

func visitBranches(branches [][]Element, rows []Row, t float64, f func(e Element, r Row, gasIn float64)) {
	for n, b := range branches {
		end := 0
		for end < len(rows) && rows[end].Branch == n+1 {
			end++
		}
		visit(b, rows[:end], t, f)
		rows = rows[end:]
	}
}
