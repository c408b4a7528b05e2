package survey

import (
	"math"

	"hushwake/path/study/draws"
)

// Expected is the band in which a reading after fitting should fall, instrument included, dB(A).
type Expected struct {
	Layout, Listener string
	Level, Low, High float64
}

// Acceptance gives for each layout and listener the reading to expect after fitting: the level with
// the band of model and meter together (10th to 90th percentile, deviations added as squares).
func Acceptance(m *draws.Model, b draws.Belief, meterSD float64, d draws.Options) ([]Expected, error) {
	s, err := m.MonteCarlo(b, d)
	if err != nil {
		return nil, err
	}
	var all []Expected
	for _, l := range s.Layouts {
		for _, h := range l.Listeners {
			all = append(all, Expected{l.Name, h.Listener, h.Level,
				h.Level - math.Hypot(h.Level-h.Low, draws.Z90*meterSD), h.Level + math.Hypot(h.High-h.Level, draws.Z90*meterSD)})
		}
	}
	return all, nil
}
