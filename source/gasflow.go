package source

import (
	"fmt"
	"math"
	"strings"

	"hushwake/source/gas"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Largest volume velocity of an order, amplitude over the mean flow of hot gas through the pipe.
const (
	mostSwing    = 2.0 // gas that flows one way only, all of it in short pulses
	resonance    = 2.0 // 6 dB over the cylinder's own order, for a line in tune (judgement)
	turbineSwing = 0.4 // behind a turbine (judgement: one engine, which showed 0.30)
)

// ambientSpeed is the speed of sound in air at 25 °C, m/s.
const ambientSpeed = 346.1

// swingOf is the volume velocity, amplitude over mean flow, of a tone radiated by a small outlet,
//
//	m = Q/V ,  Q = sqrt(8 pi c W/rho) / (2 pi f)
//
// with W its sound power (dB re 1 pW), rho and c of the air outside, V the mean flow in m3/s of gas at
// exhaust temperature. Source: monopole radiation (Pierce, Acoustics, ch. 4); for openings small beside
// the wavelength.
func swingOf(level, frequency, volume float64) float64 {
	w := 1e-12 * spectrum.Power(level)
	return math.Sqrt(8*math.Pi*ambientSpeed*w/ambientDensity) / (2 * math.Pi * frequency * volume)
}

// largest is the level, dB, of an order that the mean gas flow can hold.
func (m *lineModel) largest(o PipeOrder, volume float64, turbo bool) float64 {
	swing := mostSwing
	if m.swing != nil {
		swing = math.Min(swing, resonance*m.swing[m.index(o)])
	}
	if turbo {
		swing = math.Min(swing, turbineSwing)
	}
	return 20 * math.Log10(swing/swingOf(0, o.Frequency, volume))
}

// firingSwing is the volume velocity of the firing order at the valves, amplitude over mean flow; 0 where no cycle is known.
func (m *lineModel) firingSwing(turbo bool) float64 {
	i := int(math.Round(m.firing/m.cycle)) - 1
	switch {
	case i < 0 || i >= len(m.swing):
		return 0
	case turbo:
		return math.Min(m.swing[i], turbineSwing)
	}
	return m.swing[i]
}

// hotVolume is the exhaust flow of one pipe, m3/s at exhaust temperature.
func (r *Result) hotVolume() float64 {
	g := gas.Gas{Kind: gas.Exhaust, AirFuelRatio: r.AirFuelRatio}
	return float64(r.PipeFlow) / g.At(r.Temperature, atmosphere).Density
}

// holdToFlow takes off the orders what the gas flow cannot hold. Up to 250 Hz the octave falls with its
// orders; above, what the row has there stays, as broadband sound.
func (e Engine) holdToFlow(r *Result, m *lineModel) {
	turbo := e.aspiration() == Turbocharged
	needed, held := r.bound(m, turbo)
	row := m.redistribution().Bands
	var cut spectrum.Bands
	for b, x := range needed {
		switch was := spectrum.Power(r.Exhaust.Bands[b]); {
		case x == held[b]:
		case b < lowBands:
			cut[b] = 10 * math.Log10(held[b]/x)
			r.Broadband[b] += cut[b]
		default:
			lost := math.Min(x-held[b], was*(1-spectrum.Power(-row[b])))
			r.Broadband[b] = spectrum.Level(spectrum.Power(r.Broadband[b]) + x - held[b] - lost)
			cut[b] = 10 * math.Log10(1-lost/was)
		}
	}
	if cut != (spectrum.Bands{}) {
		e.noteHeld(r, cut, turbo)
	}
}

// bound lowers each order to what the flow holds: the energy on orders before and after, by the octave that
// it comes from.
func (r *Result) bound(m *lineModel, turbo bool) (needed, held spectrum.Bands) {
	volume, left := r.hotVolume(), make([]float64, len(m.orders))
	for i := range r.Orders {
		o := &r.Orders[i]
		most := math.Min(o.Level, m.largest(*o, volume, turbo))
		left[m.index(*o)] = spectrum.Power(most - o.Level)
		o.Level = most
	}
	for b, o := range m.octave {
		level := spectrum.Power(r.Exhaust.Bands[b]) * m.onOrders(r.Exhaust.Bands, b)
		for _, k := range o.orders {
			x := level * k.weight / o.sum
			needed[b] += x
			held[b] += x * left[k.index]
		}
	}
	return needed, held
}

// noteHeld enters the cut in the chain, the doubt and the list of assumptions.
func (e Engine) noteHeld(r *Result, cut spectrum.Bands, turbo bool) {
	t := Term{Name: "what the gas flow can hold", Cited: published.By(fmt.Sprintf("each order's volume velocity at most twice the cylinder's and %g times the mean flow", mostSwing), "monopole radiation and one-way flow; single-cylinder cycle; 6 dB of resonance is judgement", "judgement"), Bands: cut}
	if turbo {
		t.Formula += fmt.Sprintf(", %g behind a turbine", turbineSwing)
		t.Source += ", as is the turbine's (one engine)"
	}
	r.Exhaust.Part = r.Exhaust.with(t)
	var where []string
	for b, c := range cut {
		r.Exhaust.SD[b] = math.Max(r.Exhaust.SD[b], math.Min(heldSD, modelSD-c))
		if c < -0.5 {
			where = append(where, fmt.Sprintf("%.1f dB at %g Hz", c, spectrum.Nominal[b]))
		}
	}
	if len(where) == 0 {
		return
	}
	why := "louder orders would need more gas than flows"
	if e.Rated.Power < smallPower {
		why += "; the octave row is that of engines of hundreds of kW"
	}
	r.Assumptions = append(r.Assumptions, *e.assume("exhaust: orders that the gas carries", strings.Join(where, ", "), why, 5))
}

// smallPower is the rated power in W under which the octave row's total is plainly too much for the flow.
const smallPower = 60e3
