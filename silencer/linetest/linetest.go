// Package linetest holds the lines and the gas that the tests of silencer's packages speak of.
package linetest

import (
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/gas"
)

// Exhaust is diesel exhaust of a flow in kg/s and a temperature in C, in air of 40 C.
func Exhaust(flow, celsius float64) silencer.Feed {
	return silencer.Feed{Gas: gas.Gas{AirFuelRatio: 22}, MassFlow: source.PipeFlow(flow), Temperature: celsius + 273.15, Ambient: 313.15}
}

// Between puts elements between pipes of 102 mm.
func Between(list ...silencer.Element) *silencer.Line {
	all := append([]silencer.Element{&silencer.Pipe{Bore: 0.102, Length: 0.8}}, list...)
	return &silencer.Line{Elements: append(all, &silencer.Pipe{Bore: 0.102, Length: 0.5}), Outlet: silencer.Outlet{Present: true, Bore: 0.102}}
}

// DryLine is a stack with a chamber of an outside diameter and a lagging, m, in a clear space.
func DryLine(chamberOuter, lagging float64, envelope ...float64) *silencer.Line {
	return &silencer.Line{Elements: []silencer.Element{
		&silencer.Pipe{Bore: 0.102, Length: 2},
		&silencer.Chamber{Common: silencer.Common{Name: "silencer", Lagging: silencer.Lagging{Thickness: lagging}, Envelope: envelope},
			Bore: chamberOuter - 4e-3, Rooms: []float64{1.5}, InletBore: 0.102, OutletBore: 0.102},
		&silencer.Pipe{Bore: 0.102, Length: 1},
	}, Outlet: silencer.Outlet{Present: true, Bore: 0.102, Pointing: silencer.Direction{0, 0, 1}}}
}
