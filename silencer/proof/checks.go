//go:build !js

// Package proof computes published values of whole lines by the calls that a layout or a bench makes.
package proof

import (
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/silencer"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
	"hushwake/source"
	"hushwake/source/gas"
	"hushwake/source/published"
)

// Checks run whole lines: the same calls that a layout or a bench makes.
var Checks = published.Values{
	"silencer.ChamberTL":    published.Args(8, chamberTL),
	"silencer.PerforatedTL": published.Args(8, perforatedTL),
	"silencer.FlowChamberTL": published.Args(5, func(a []float64) (float64, error) {
		flow := a[3] * 343 * 1.204 * math.Pi / 4 * a[0] * a[0]
		return benchTL(chamberOf(a[0], a[1], a[2], 0, 0), flow, closedForm, a[4])
	}),
	"silencer.ChamberPeak": published.Args(1, func(a []float64) (float64, error) {
		return benchTL(chamberOf(0.05, 0.05*math.Sqrt(a[0]), 0.3, 0, 0), 0, closedForm, 343/(4*0.3))
	}),
	"silencer.AreaRatioTL": published.Args(3, func(a []float64) (float64, error) {
		return benchTL(chamberOf(0.05, 0.05*math.Sqrt(a[0]), a[1], 0, 0), 0, closedForm, a[2])
	}),
	"silencer.StepTL": published.Args(2, func(a []float64) (float64, error) {
		up, down := math.Sqrt(4*a[0]/math.Pi), math.Sqrt(4*a[1]/math.Pi)
		return benchTL([]silencer.Element{&silencer.Pipe{Bore: up, Length: 0.3}, &silencer.Pipe{Bore: down, Length: 0.3}}, 0, closedForm, 125)
	}),
	"silencer.TemperatureStepTL": published.Args(2, temperatureStepTL),
	"silencer.DryExample":        published.Args(6, dryExample),
	"silencer.WetOutlet": published.Args(4, func(a []float64) (float64, error) {
		m, err := marchWet(a[0], a[1], a[2], a[3], &silencer.Hose{Bore: 0.076, Length: 1})
		return m.OutletTemperature, err
	}),
	"silencer.WetExample": published.Args(5, wetExample),
	// height, Pa; density; speed of sound; length, s; ratio of heats
	"silencer.ShockDistance": published.Args(5, func(a []float64) (float64, error) {
		return fourpole.ShockDistance(fourpole.Pulse{Height: a[0], Length: a[3]}, fourpole.Medium{Density: a[1], SoundSpeed: a[2], Gamma: a[4]}), nil
	}),
	"silencer.WetHose": published.Args(6, func(a []float64) (float64, error) {
		m, err := marchWet(a[0], a[1], a[2], a[3], &silencer.Hose{Bore: a[4], Length: a[5]})
		return lastLoss(m), err
	}),
	"silencer.WetRiser": published.Args(6, func(a []float64) (float64, error) {
		m, err := marchWet(a[0], a[1], a[2], a[3], &silencer.Riser{Bore: a[4], Rise: a[5]})
		return lastLoss(m), err
	}),
	// loading, Sauter mean diameter, frequency; five classes in exhaust saturated at 45 C, dB/m
	"wet.Spray": published.Args(3, func(a []float64) (float64, error) {
		var classes []gas.Class
		for _, d := range wet.Sizes(a[1]) {
			classes = append(classes, gas.Class{Loading: a[0] / 5, Diameter: d})
		}
		s, err := gas.NewSpray(wetGas, classes)
		if err != nil {
			return 0, err
		}
		return wetLine(fourpole.Run{Drops: s}, a[2])
	}),
	// resistance per metre, frequency; nothing else, dB/m
	"wet.Drag": published.Args(2, func(a []float64) (float64, error) {
		return wetLine(fourpole.Run{Drag: fourpole.Drag{Resistance: a[0]}}, a[1])
	}),
}

var closedForm = silencer.Options{Walls: "lossless", Corrections: "none", Method: "plane"}

func chamberOf(pipe, bore, length, in, out float64) []silencer.Element {
	return []silencer.Element{&silencer.Chamber{Bore: bore, Rooms: []float64{length}, InletBore: pipe, OutletBore: pipe,
		InletExtension: in, OutletExtension: out, TubeWall: 1e-3}}
}

// benchTL is the transmission loss of a line in still or flowing air of 343 m/s and 1.204 kg/m3.
func benchTL(elements []silencer.Element, flow float64, o silencer.Options, hz float64) (float64, error) {
	f := silencer.Feed{Gas: gas.Gas{Kind: gas.Stated, SoundSpeed: 343, Density: 1.204}, MassFlow: source.PipeFlow(flow),
		Temperature: 293.15, Ambient: 293.15, Isothermal: true}
	l := silencer.Line{Elements: elements}
	c, err := l.Curve(f, o, []float64{hz})
	if err != nil {
		return 0, err
	}
	return c.TransmissionLoss[0], nil
}

// chamberTL: pipe bore, chamber bore, length, inlet and outlet extension, modes 1 or plane waves 0,
// corrections 1 or 0, frequency.
func chamberTL(a []float64) (float64, error) {
	o := silencer.Options{Walls: "lossless", Method: "modes"}
	if a[5] == 0 {
		o.Method = "plane"
	}
	if a[6] == 0 {
		o.Corrections = "none"
	}
	return benchTL(chamberOf(a[0], a[1], a[2], a[3], a[4]), 0, o, a[7])
}

// perforatedTL: bore, shell, length, porosity, hole, wall, flow resistivity (0 = empty), frequency.
func perforatedTL(a []float64) (float64, error) {
	p := silencer.Perforate{Bore: a[0], ChamberBore: a[1], Length: a[2], To: a[2], Porosity: a[3], Hole: a[4], TubeWall: a[5], Impedance: silencer.Still}
	var e silencer.Element = &silencer.Perforated{Perforate: p}
	if a[6] > 0 {
		e = &silencer.Packed{Perforate: p, FlowResistivity: a[6], Fibre: silencer.AllardChampoux}
	}
	return benchTL([]silencer.Element{e}, 0, silencer.Options{Walls: "lossless"}, a[7])
}

// temperatureStepTL is a step between two temperatures (K) of a gas with one ratio of specific heats.
func temperatureStepTL(a []float64) (float64, error) {
	var ends [2]fourpole.End
	for i := range ends {
		m := fourpole.Medium{SoundSpeed: 343 * math.Sqrt(a[i]/293.15), Density: 1.204 * 293.15 / a[i]}
		ends[i] = fourpole.PipeEnd(m, 0.1, 0)
	}
	p, err := fourpole.NewTemperatureStep(ends[0].Medium, ends[1].Medium)
	if err != nil {
		return 0, err
	}
	return p.At(600).Between(ends[0], ends[1]).TransmissionLoss(), nil
}

// dryExample: flow, temperature, bore, length, sum of loss coefficients, roughness; exit included.
func dryExample(a []float64) (float64, error) {
	f := silencer.Feed{Gas: gas.Gas{AirFuelRatio: 22}, MassFlow: source.PipeFlow(a[0]), Temperature: a[1], Ambient: 293.15, Isothermal: true}
	rho := f.Gas.At(a[1], gas.Atmosphere).Density
	v := a[0] / (rho * math.Pi / 4 * a[2] * a[2])
	l := silencer.Line{Elements: []silencer.Element{
		&silencer.Pipe{Bore: a[2], Length: a[3], Roughness: a[5]},
		&silencer.Given{Bore: a[2], Loss: &silencer.Loss{Drop: a[4] * rho * v * v / 2, MassFlow: a[0], Temperature: a[1], Basis: silencer.BasisHot}},
	}, Outlet: silencer.Outlet{Present: true, Bore: a[2]}}
	m, err := l.March(f, silencer.Options{})
	return m.BackPressure, err
}

// marchWet sends gas through an injection and one wet element.
func marchWet(flow, kelvin, water, waterK float64, e silencer.Element) (silencer.Marched, error) {
	l := silencer.Line{Elements: []silencer.Element{&silencer.WaterInjection{Flow: water, Temperature: waterK, Pipe: 0.076}, e}}
	f := silencer.Feed{Gas: gas.Gas{AirFuelRatio: 22}, MassFlow: source.PipeFlow(flow), Temperature: kelvin, Ambient: 318.15}
	m, err := l.March(f, silencer.Options{})
	if err == nil && len(m.Rows) == 0 {
		err = fmt.Errorf("no rows")
	}
	return m, err
}

func lastLoss(m silencer.Marched) float64 {
	if len(m.Rows) == 0 {
		return math.NaN()
	}
	return m.Rows[len(m.Rows)-1].PressureLoss
}

// wetExample: flow, temperature, water, its temperature, bore. A dry elbow of K 0.6 at the engine's 52.5 mm, 6 m of hose, local losses
// of K 3.7 in wet gas (by the exit's, which has K 1) and the head of a 1 m riser without its friction (by that of
// 1 m of level hose).
func wetExample(a []float64) (float64, error) {
	f := silencer.Feed{Gas: gas.Gas{AirFuelRatio: 22}, MassFlow: source.PipeFlow(a[0]), Temperature: a[1], Ambient: 318.15}
	l := silencer.Line{Elements: []silencer.Element{
		&silencer.WaterInjection{Flow: a[2], Temperature: a[3], Pipe: a[4]},
		&silencer.Hose{Bore: a[4], Length: 6}, &silencer.Riser{Bore: a[4], Rise: 1, Length: 1},
	}, Outlet: silencer.Outlet{Present: true, Bore: a[4]}}
	m, err := l.March(f, silencer.Options{})
	if err != nil {
		return 0, err
	}
	const manifold = 0.0525 // m, bore of the dry elbow
	v := a[0] / (f.Gas.At(a[1], gas.Atmosphere).Density * math.Pi / 4 * manifold * manifold)
	elbow := 0.6 * f.Gas.At(a[1], gas.Atmosphere).Density * v * v / 2
	hose, riser, exit := m.Rows[1].PressureLoss, m.Rows[2].PressureLoss, m.Rows[3].PressureLoss
	return elbow + hose + 3.7*exit + riser - hose/6, nil
}

// wetGas is exhaust saturated at 45 C.
var wetGas = gas.Droplets{Density: wet.WaterDensity, Heat: wet.WaterHeat, Vapour: .0572, DryMass: 29.79, Gas: gas.State{Temperature: 318.11,
	Density: 1.1181, SoundSpeed: 356.71, Gamma: 1.3812, Cp: 1049.2, Viscosity: 1.8221e-5, Conductivity: .027725, Pressure: 1.1181 * 356.71 * 356.71 / 1.3812}}

// wetLine is the decay of a run of 102 mm in that gas without walls, dB/m.
func wetLine(r fourpole.Run, hz float64) (float64, error) {
	g := wetGas.Gas
	r.End = fourpole.PipeEnd(fourpole.Medium{SoundSpeed: g.SoundSpeed, Density: g.Density, Gamma: g.Gamma}, .102, 0)
	r.Bore, r.Length = .102, 1e-5
	l, err := fourpole.NewLine(r)
	if err != nil {
		return 0, err
	}
	m := l.At(2 * math.Pi * hz)
	return 8.6859e5 * math.Abs(real(cmplx.Sqrt(m.T12*m.T21))), nil // sinh G l of a short line
}
