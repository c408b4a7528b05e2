package path_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// ruling is the loudest order at the end of a line, A-weighted: its level at the engine and what the line takes of it.
func ruling(x path.ExhaustResult) (level, loss float64) {
	most := -1e9
	for i, o := range x.Source.Orders {
		if at := o.Level - x.Acoustics.LineLoss[i] + spectrum.AAt(o.Frequency); at > most {
			most, level, loss = at, o.Level, x.Acoustics.LineLoss[i]
		}
	}
	return level, loss
}

// Over 400 rpm, with the firing frequency running through an octave edge (177.8 Hz at 1778 rpm), no ear hears an outlet
// step by more than 0.3 dB beyond what the ruling order steps at the engine and the line's loss at its frequency does;
// and running over the edge itself is no step at all. A-weighting whole octaves made it 2.5 dB. The engine's own steps
// lie beside the edge: at 1770 and 1775 rpm, where orders 24 and 12 change octaves, and at the stated running duty.
func TestNoStepAtAnOctaveEdge(t *testing.T) {
	b := demo(t, "dry-stack")
	l := b.Layouts[0]
	was, order, lost := map[string]float64{}, 0.0, 0.0
	for rpm := 1500.0; rpm <= 1900; rpm += 5 {
		as, err := l.ForReading(path.Reading{RunSpeed: rpm})
		require.NoError(t, err)
		p, err := path.PredictIn(b, as, path.Fast)
		require.NoError(t, err)
		before, losing := order, lost
		order, lost = ruling(p.Exhausts[0])
		for _, h := range p.Listeners {
			var outlet []float64
			for _, r := range h.Routes {
				if r.Way == path.ByOutlet {
					outlet = append(outlet, r.DBA())
				}
			}
			name, is := h.Listener.Name, spectrum.Sum(outlet...)
			if rpm > 1500 {
				require.InDelta(t, (order-before)-(lost-losing), is-was[name], 0.3, "%s at %g rpm", name, rpm)
			}
			if rpm == 1780 {
				require.InDelta(t, 0, is-was[name], 0.3, "%s: over the edge", name)
			}
			was[name] = is
		}
	}
}

// The loss of the octave is that of its orders and its broadband part together, away from octave edges.
func TestOrdersAndBroadbandMakeTheOctave(t *testing.T) {
	p := predict(t, demo(t, "dry-stack"), demo(t, "dry-stack").Layouts[0])
	x := p.Exhausts[0]
	for b := range x.Unsilenced {
		sum, edge := spectrum.Power(x.Source.Broadband[b]-x.Acoustics.BroadbandLoss[b]), false
		for i, o := range x.Source.Orders {
			if spectrum.BandOf(o.Frequency) == b {
				sum += spectrum.Power(o.Level - x.Acoustics.LineLoss[i])
				edge = edge || spectrum.BandOf(o.Frequency*0.97) != b || spectrum.BandOf(o.Frequency*1.03) != b
			}
		}
		if !edge {
			require.InDelta(t, x.Unsilenced[b]-x.Acoustics.InsertionLoss[b], spectrum.Level(sum), 0.01, "band %d", b)
		}
	}
}

// Where flow noise rules an outlet, the doubt of the source acts with its share: half of what a change by
// 5 dB up and down makes, to 0.3 dB in every band. A flat 5 dB stood there, while a source 5 dB quieter
// moves some bands by 0.3 dB.
func TestSourceActsWithItsShare(t *testing.T) {
	b := fileBoat(t, "bare-engine-room")
	b.Listeners = append(b.Listeners, path.Listener{Name: "shore", In: path.Outside, At: path.Point{-10, 0, 1}})
	l := layout(t, b, "two stages, narrow")
	p := predict(t, b, l)
	level, sd := p.Exhausts[0].Source.Exhaust.Bands, p.Exhausts[0].Source.Exhaust.SD
	stated := func(bands spectrum.Bands) path.Route {
		as := *l
		as.Engines = append([]path.Engine(nil), l.Engines...)
		as.Engines[0].ExhaustLevel = &bands
		return outletRoute(t, predict(t, b, &as))
	}
	up, down := stated(level.Shift(5)), stated(level.Shift(-5))
	least := 10.0
	for _, u := range outletRoute(t, p).Steps[0].Uncertain {
		if u.Term != "source level" {
			continue
		}
		for k := range u.SD {
			require.InDelta(t, (up.Bands[k]-down.Bands[k])/2, u.SD[k]*5/sd[k], 0.3, "band %d", k)
			least = math.Min(least, u.SD[k])
		}
	}
	require.Less(t, least, 0.5, "flow noise rules somewhere")

	x, route := p.Exhausts[0], outletRoute(t, p)
	after := x.Unsilenced.Minus(x.Acoustics.InsertionLoss)
	checked := 0
	for _, step := range route.Steps[1:] {
		for _, u := range step.Uncertain {
			for k := range u.SD {
				half := func(part, rest, sd float64) float64 {
					return (spectrum.Sum(part+sd, rest) - spectrum.Sum(part-sd, rest)) / 2
				}
				switch u.Term {
				case "source impedance":
					require.InDelta(t, half(after[k], x.Acoustics.SelfNoise[k], x.Acoustics.ImpedanceSD[k]), u.SD[k], 0.3, "line, band %d", k)
				case "flow noise": // 5 dB
					require.InDelta(t, half(x.Acoustics.SelfNoise[k], after[k], 5), u.SD[k], 0.3, "flow noise, band %d", k)
				default:
					continue
				}
				checked++
			}
		}
	}
	require.Equal(t, 2*spectrum.N, checked)
}

func outletRoute(t *testing.T, p path.Prediction) path.Route {
	for _, r := range at(t, p, "shore").Routes {
		if r.Way == path.ByOutlet {
			return r
		}
	}
	t.Fatal("no route from the outlet")
	return path.Route{}
}

// Each route says by which way it leaves which engine, and has a doubt: nothing is known for sure.
func TestRoutesSayTheirWayAndEngine(t *testing.T) {
	ways := map[path.Way]int{}
	for _, b := range houseBoats(t) {
		p, err := path.PredictIn(b, b.Layouts[0], path.Fast)
		require.NoError(t, err)
		for _, h := range p.Listeners {
			for _, r := range h.Routes {
				ways[r.Way]++
				doubt := 0.0
				for _, s := range r.Steps {
					for _, u := range s.Uncertain {
						doubt = math.Max(doubt, u.SD.Total())
					}
				}
				require.Positive(t, doubt, "%s: %s", r.Source, r.Route)
				if r.Way != "" && r.Way != path.ByBackground {
					require.True(t, strings.HasPrefix(r.Source, r.Engine+" "), r.Source)
					require.NotEmpty(t, r.Engine)
				}
			}
		}
	}
	for _, w := range []path.Way{path.ByOutlet, path.ByLineWall, path.ByAir, path.ByStructure, path.ByBackground, ""} {
		require.Positive(t, ways[w], "way %q", w)
	}
}
