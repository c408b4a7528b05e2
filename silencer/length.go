package silencer

// Length is how far a line reaches when laid out straight: all its parts end to end, upright ones by their height, m.
func (l *Line) Length() (m float64) {
	for _, e := range l.Elements {
		f := e.Form()
		m += f.Length + f.Tall
	}
	return m
}
