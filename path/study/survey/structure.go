package survey

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

// atMount plans a phone's accelerometer above and below a mount.
func atMount(m *draws.Model, p path.Prediction, r path.Route, b draws.Belief) []candidate {
	for _, x := range p.Exhausts {
		if f := x.Feet; r.Source == x.Engine+" casing" && f.AcrossMount > 0 {
			c := nearSource(m, p, r, r.Bands, b, 0, map[string]bool{"mounts": true})
			c.bias, c.repeat = 0, readings.MountError(readings.PhoneSD)
			c.What, c.Where = "vibration above and below a mount, by a phone's accelerometer", "feet of "+x.Engine
			c.How = fmt.Sprintf(howMount, f.AcrossMount, f.Line, x.Engine)
			if f.AcrossMount >= readings.BridgedUnder+readings.PhoneSD {
				c.How += fmt.Sprintf(howBridged, readings.BridgedUnder)
			}
			return []candidate{c}
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
func structureReadings(m *draws.Model, p path.Prediction, b draws.Belief, o Options) (all []candidate) {
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			if h.Listener.Name != o.Listener || r.Way != path.ByStructure || r.DBA() < h.DBA()-structureCounts {
				continue
			}
			c := nearSource(m, p, r, r.Bands, b, 0, structureTerms)
			c.bias, c.repeat = 0, math.Hypot(readings.RepeatShare*o.SD*math.Sqrt2, math.Hypot(readings.FieldSD, readings.SpectrumSD))
			c.What, c.Where, c.How = "loudspeaker in the engine space, engine stopped: there and at the seat; then the engine", o.Listener, howLoudspeaker
			all = append(all, c)
			all = append(all, atMount(m, p, r, b)...)
		}
	}
	return all
}
