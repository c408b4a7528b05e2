package source

// lineModelAt weighs the orders of one pipe.
func (e Engine) lineModelAt(d Duty, g, rated gasRates, coarse bool) (lineModel, []string) {
	return newLineModel(e, d.Speed, nil), nil
}
