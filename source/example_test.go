package source_test

import (
	"fmt"

	"hushwake/source"
)

// show prints an engine at its running duty. All three engines are invented.
func show(e source.Engine) {
	duty, _ := e.RunningDuty()
	r, err := e.At(duty)
	if err != nil {
		fmt.Println(err)
		return
	}
	strongest := r.Orders[0]
	for _, o := range r.Orders {
		if o.Level > strongest.Level {
			strongest = o
		}
	}
	fmt.Printf("firing at %.1f Hz, strongest order %g\n", r.FiringFrequency, strongest.Order)
	fmt.Printf("exhaust %.0f dB(A), casing %.0f dB(A)\n", r.ExhaustDBA(), r.Casing.Bands.DBA())
	fmt.Printf("%.3f kg/s at %.0f °C\n", r.EngineFlow, r.Temperature-273.15)
}

// A blower-scavenged two-stroke, cruising.
func ExampleEngine_At_blowerTwoStroke() {
	show(source.Engine{Name: "main", Stroke: source.TwoStroke, Cylinders: 6, Aspiration: source.Blower, Displacement: 5.4e-3,
		Rated: source.Duty{Power: 110e3, Speed: 2100}, Running: source.Duty{Power: 62e3, Speed: 1700}})
	// Output:
	// firing at 170.0 Hz, strongest order 6
	// exhaust 124 dB(A), casing 114 dB(A)
	// 0.252 kg/s at 302 °C
}

// A turbocharged four-stroke on the propeller law.
func ExampleEngine_At_turbochargedFourStroke() {
	show(source.Engine{Name: "main", Stroke: source.FourStroke, Cylinders: 6, Aspiration: source.Turbocharged, Displacement: 6.6e-3,
		Rated: source.Duty{Power: 150e3, Speed: 2400}})
	// Output:
	// firing at 96.0 Hz, strongest order 6
	// exhaust 117 dB(A), casing 111 dB(A)
	// 0.153 kg/s at 324 °C
}

// A small generator set at rated.
func ExampleEngine_At_generator() {
	show(source.Engine{Name: "set", Stroke: source.FourStroke, Cylinders: 3,
		Rated: source.Duty{Power: 7.6e3, Speed: 1500}, Generator: &source.Generator{Power: 6.5e3}})
	// Output:
	// firing at 37.5 Hz, strongest order 4.5
	// exhaust 115 dB(A), casing 99 dB(A)
	// 0.015 kg/s at 430 °C
}

// A bank of a cross-plane V8 with a pipe of its own growls on half orders.
func ExampleEngine_OrderStrengths() {
	none := 0.0
	e := source.Engine{Stroke: source.FourStroke, Cylinders: 8, Arrangement: source.Vee, Banks: 2, Scatter: &none,
		FiringOrder: []int{1, 8, 4, 3, 6, 5, 7, 2}, Rated: source.Duty{Power: 200e3, Speed: 2400}}
	for _, s := range e.OrderStrengths(4) {
		fmt.Printf("%g:%.2f ", s.Order, s.Strength)
	}
	// Output: 0.5:0.27 1:0.00 1.5:0.65 2:0.00 2.5:0.65 3:0.00 3.5:0.27 4:1.00
}

// What five kilopascals cost a blower-scavenged two-stroke.
func ExampleEngine_BackPressureCost() {
	e := source.Engine{Name: "main", Stroke: source.TwoStroke, Cylinders: 6, Aspiration: source.Blower, Displacement: 5.4e-3,
		Rated: source.Duty{Power: 110e3, Speed: 2100}}
	c, err := e.BackPressureCost(e.Rated, 5e3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("air %.1f %%, power %.1f %% ± %.1f\n", 100*c.Air, 100*c.Power, 100*c.SDPower)
	// Output: air 0.8 %, power 1.4 % ± 0.6
}
