package source

import (
	"math"
	"strings"
	"testing"
)

func TestBadEnginesAreRefused(t *testing.T) {
	for what, change := range map[string]func(*Engine){
		"zero cylinders":          func(e *Engine) { e.Cylinders = 0 },
		"minus cylinders":         func(e *Engine) { e.Cylinders = -3 },
		"too many cylinders":      func(e *Engine) { e.Cylinders = 600 },
		"no cycle":                func(e *Engine) { e.Stroke = 0 },
		"40 000 rpm":              func(e *Engine) { e.Rated.Speed = 40000 },
		"negative power":          func(e *Engine) { e.Rated.Power = -1 },
		"power not a number":      func(e *Engine) { e.Rated.Power = math.NaN() },
		"infinite power":          func(e *Engine) { e.Rated.Power = math.Inf(1) },
		"zero speed":              func(e *Engine) { e.Rated.Speed = 0 },
		"running above rated rpm": func(e *Engine) { e.Running = Duty{100e3, 2600} },
		"running above rated kW":  func(e *Engine) { e.Running = Duty{170e3, 2400} },
		"running negative":        func(e *Engine) { e.Running = Duty{-5e3, 2000} },
		"torque impossible":       func(e *Engine) { e.Running = Duty{140e3, 800} },
		"firing order short":      func(e *Engine) { e.FiringOrder = []int{1, 2, 3} },
		"firing order twice":      func(e *Engine) { e.FiringOrder = []int{1, 5, 3, 6, 2, 2} },
		"firing angles short":     func(e *Engine) { e.FiringAngles = []float64{0, 1} },
		"odd vee":                 func(e *Engine) { e.Cylinders, e.Arrangement = 5, Vee },
		"more banks":              func(e *Engine) { e.Banks = 7 },
		"cold exhaust":            func(e *Engine) { e.Temperature = 290 },
		"air-fuel ratio":          func(e *Engine) { e.AirFuelRatio = 3 },
		"consumption":             func(e *Engine) { e.FuelConsumption = per(100) },
		"generator larger":        func(e *Engine) { e.Generator = &Generator{Power: 400e3} },
		"piston speed":            func(e *Engine) { e.Bore, e.Piston = 0.1, 0.9 },
		"scatter":                 func(e *Engine) { s := -0.1; e.Scatter = &s },
		"flow not a number":       func(e *Engine) { e.Flow = math.NaN() },
	} {
		e := turboFour()
		e.Running = Duty{}
		change(&e)
		_, err := e.Check()
		if err == nil || !strings.Contains(err.Error(), "\nhint: ") {
			t.Errorf("%s: %v", what, err)
		}
		if _, err := e.At(Duty{85e3, 1900}); err == nil {
			t.Errorf("%s: predicted all the same", what)
		}
	}
}

func TestSpeedsAreWrittenOut(t *testing.T) {
	e := turboFour()
	e.Rated.Speed = 40000
	if _, err := e.Check(); err == nil || !strings.Contains(err.Error(), "40000 rpm") {
		t.Error(err)
	}
}

func TestBadDutiesAreRefused(t *testing.T) {
	e := turboFour()
	for _, d := range []Duty{{}, {10e3, 0}, {-1, 1000}, {math.NaN(), 1000}, {10e3, math.Inf(1)}, {10e3, 3000}, {200e3, 2400}} {
		if _, err := e.At(d); err == nil {
			t.Errorf("%v was taken", d)
		}
	}
}

func TestOddEnginesAreWarnedAbout(t *testing.T) {
	e := twoStroke()
	e.Aspiration = Natural
	w, err := e.Check()
	if err != nil || !warned(w, "without blower") {
		t.Errorf("two-stroke without blower: %v %v", w, err)
	}
	if w, _ := twoStroke().Check(); len(w) != 0 {
		t.Errorf("a usual engine is warned about: %v", w)
	}
	hot := turboFour()
	hot.Temperature = 1173
	if w, _ := hot.Check(); !warned(w, "very hot") {
		t.Errorf("900 °C: %v", w)
	}
	steep := turboFour()
	if r := at(t, steep, Duty{100e3, 1200}); !warned(r.Warnings, "rated torque") {
		t.Errorf("torque over rated: %v", r.Warnings)
	}
}

func TestRunningDuty(t *testing.T) {
	e := turboFour()
	if d, a := e.RunningDuty(); d != e.Running || a != nil {
		t.Errorf("stated duty became %v, %v", d, a)
	}
	e.Running = Duty{}
	d, a := e.RunningDuty()
	near(t, "speed", d.Speed, 0.8*2400, 1e-9)
	near(t, "power", d.Power, 0.512*150e3, 1e-6)
	if a == nil || a.PlusMinusDB <= 0 {
		t.Error("the default duty is not listed")
	}
	set := smallSet()
	if d, a := set.RunningDuty(); d != set.Rated || a == nil {
		t.Errorf("a set runs at %v, %v", d, a)
	}
	e.Running = Duty{Speed: 1200}
	d, a = e.RunningDuty()
	near(t, "power at a stated speed", d.Power, 150e3/8, 1e-6)
	if a == nil {
		t.Error("power filled in without a note")
	}
	e.Running = Duty{Power: 150e3 / 8}
	d, _ = e.RunningDuty()
	near(t, "speed at a stated power", d.Speed, 1200, 1e-6)
}

// Where the cycle does not settle a smooth pulse weighs the orders; it bounds none but by twice the flow.
func TestUnsettledCycleBoundsNoOrder(t *testing.T) {
	e := Engine{Stroke: TwoStroke, Cylinders: 15, Fuel: Petrol, Rated: Duty{9377.164448690106, 1333.9599609375}}
	r, err := e.QuickAt(Duty{0, 0.34458160400390625 * e.Rated.Speed})
	if err != nil {
		t.Fatal(err)
	}
	if !warned(r.Warnings, "smooth pulse") || r.Exhaust.Bands[3] < 80 {
		t.Errorf("250 Hz at %.1f dB, %v", r.Exhaust.Bands[3], r.Warnings)
	}
	for _, o := range r.Orders {
		if m := swingOf(o.Level, o.Frequency, r.hotVolume()); m > 2+1e-9 {
			t.Errorf("order %g needs %.2f times the flow", o.Order, m)
		}
	}
}
