package readings

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/structure"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// Errors of a loudspeaker test beside the meter's own, dB (judgement): the field differs over a room, and
// pink noise in one figure is not the engine's spectrum.
const (
	FieldSD    = 2.0
	SpectrumSD = 2.0
)

// observeLoudspeaker compares what comes through the structure, by the loudspeaker test, with the model:
// as a difference to the level in the engine space, so that it moves mounts, hull and plates and not the source.
func observeLoudspeaker(m *draws.Model, r path.Reading, l *draws.Layout) (all []observation, reason string, err error) {
	seat, room := l.Listener(r.Listener), l.Listener(r.Loudspeaker.Listener)
	if seat == nil || room == nil {
		return nil, "", fmt.Errorf("reading %d: no level is predicted in the engine space or at %q\nhint: say which engine ran", r.Index, r.Listener)
	}
	_, borne := seat.AirAndStructure()
	if len(borne.Routes) == 0 {
		return nil, "loudspeaker: sound through mounts and hull is too faint there to be told apart", nil
	}
	t := r.Loudspeaker
	if len(t.Room) == 1 {
		level, _, reason := background(*r.Level, r.Background)
		if reason != "" {
			return nil, reason, nil
		}
		o, reason := loudspeakerObservation(r, borne, room, spectrum.A, [4]float64{level, t.Running[0], t.Room[0], t.Seat[0]}, SpectrumSD)
		if reason != "" {
			return nil, reason, nil
		}
		o.unit = "dB(A), structure less engine space"
		return []observation{o}, "", nil
	}
	for b := range r.Bands {
		o, why := loudspeakerObservation(r, borne, room, draws.OnlyBand(b), [4]float64{r.Bands[b], t.Running[b], t.Room[b], t.Seat[b]}, 0)
		if why != "" {
			reason = why
			continue
		}
		o.unit = fmt.Sprintf("dB at %g Hz, structure less engine space", spectrum.Nominal[b])
		all = append(all, o)
	}
	if len(all) > 0 {
		reason = ""
	}
	return all, reason, nil
}

// loudspeakerObservation is one observation of a loudspeaker test: levels are those at the seat and in the engine space
// with the engine, then in the engine space and at the seat with the loudspeaker.
func loudspeakerObservation(r path.Reading, borne, room *draws.Listener, w spectrum.Bands, levels [4]float64, more float64) (observation, string) {
	s, bound := structure.ByLoudspeaker(levels[0], levels[1], levels[2], levels[3])
	if bound {
		return observation{}, fmt.Sprintf("loudspeaker: the air rules at %s, the structure brings at most %.0f dB", r.Listener, s)
	}
	_, repeat := SplitError(soundError(r))
	air := 1 - spectrum.Power(s-levels[0]) // share of the air in the level
	sd := math.Hypot(repeat*math.Sqrt2, math.Hypot(FieldSD, more)) / math.Max(1-air, 0.1)
	value := s - levels[1]
	return observation{value: value, shown: value, bias: 0, repeat: sd, instrument: instrument(r, "sound meter"),
		note:     "by loudspeaker: the instrument's own error drops out",
		restore:  func(v float64) float64 { return v },
		expected: expected{heard: borne, less: room, weight: w}}, ""
}
