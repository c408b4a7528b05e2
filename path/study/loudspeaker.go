package study

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/structure"
	"hushwake/source/spectrum"
)

// Errors of a loudspeaker test beside the meter's own, dB (judgement): the field differs over a room, and
// pink noise in one figure is not the engine's spectrum.
const (
	fieldSD    = 2.0
	spectrumSD = 2.0
)

// observeLoudspeaker compares what comes through the structure, by the loudspeaker test, with the model:
// as a difference to the level in the engine space, so that it moves mounts, hull and plates and not the source.
func (m *Model) observeLoudspeaker(r path.Reading, l *layoutModel) (all []observation, reason string, err error) {
	seat, room := l.listener(r.Listener), l.listener(r.Loudspeaker.Listener)
	if seat == nil || room == nil {
		return nil, "", fmt.Errorf("reading %d: no level is predicted in the engine space or at %q\nhint: say which engine ran", r.Index, r.Listener)
	}
	_, borne := seat.parts()
	if len(borne.routes) == 0 {
		return nil, "loudspeaker: sound through mounts and hull is too faint there to be told apart", nil
	}
	t := r.Loudspeaker
	if len(t.Room) == 1 {
		level, _, reason := background(*r.Level, r.Background)
		if reason != "" {
			return nil, reason, nil
		}
		o, reason := parted(r, borne, room, spectrum.A, [4]float64{level, t.Running[0], t.Room[0], t.Seat[0]}, spectrumSD)
		if reason != "" {
			return nil, reason, nil
		}
		o.unit = "dB(A), structure less engine space"
		return []observation{o}, "", nil
	}
	for b := range r.Bands {
		o, why := parted(r, borne, room, only(b), [4]float64{r.Bands[b], t.Running[b], t.Room[b], t.Seat[b]}, 0)
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

// parted is one observation of a loudspeaker test: levels are those at the seat and in the engine space
// with the engine, then in the engine space and at the seat with the loudspeaker.
func parted(r path.Reading, borne, room *heardModel, w spectrum.Bands, levels [4]float64, more float64) (observation, string) {
	s, bound := structure.ByLoudspeaker(levels[0], levels[1], levels[2], levels[3])
	if bound {
		return observation{}, fmt.Sprintf("loudspeaker: the air rules at %s, the structure brings at most %.0f dB", r.Listener, s)
	}
	_, repeat := split(soundError(r))
	air := 1 - spectrum.Power(s-levels[0]) // share of the air in the level
	sd := math.Hypot(repeat*math.Sqrt2, math.Hypot(fieldSD, more)) / math.Max(1-air, 0.1)
	value := s - levels[1]
	return observation{value: value, shown: value, bias: 0, repeat: sd, instrument: instrument(r, "sound meter"),
		note:    "by loudspeaker: the instrument's own error drops out",
		restore: func(v float64) float64 { return v },
		model:   func(z []float64) float64 { return borne.level(z, w) - room.level(z, w) },
		gradient: func(z []float64, n int) []float64 {
			g := borne.gradient(z, w, n)
			for k, v := range room.gradient(z, w, n) {
				g[k] -= v
			}
			return g
		}}, ""
}

// listener finds what is heard at a place; nil where there is none.
func (l *layoutModel) listener(name string) *heardModel {
	for _, h := range l.heard {
		if h.listener == name {
			return h
		}
	}
	return nil
}

// structureTerms are the causes that a test of the structure sees: all but the source.
var structureTerms = map[string]bool{"feet": true, "bed": true, "mounts": true, "bridges": true, "hull": true, "plates": true}

// structureCounts is how far below the level at a seat the way through mounts and hull still counts, dB(A).
const structureCounts = 10.0

// structureReadings are the readings that part what comes through mounts and hull from what comes by air,
// where it counts at the seat.
func (m *Model) structureReadings(p path.Prediction, b Belief, o SurveyOptions) (all []candidate) {
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			if h.Listener.Name != o.Listener || r.Way != path.ByStructure || r.DBA() < h.DBA()-structureCounts {
				continue
			}
			c := m.near(p, r, r.Bands, b, 0, structureTerms)
			c.bias, c.repeat = 0, math.Hypot(repeatShare*o.SD*math.Sqrt2, math.Hypot(fieldSD, spectrumSD))
			c.What, c.Where, c.How = "loudspeaker in the engine space, engine stopped: there and at the seat; then the engine", o.Listener, howLoudspeaker
			all = append(all, c)
			all = append(all, m.atMount(p, r, b)...)
		}
	}
	return all
}
