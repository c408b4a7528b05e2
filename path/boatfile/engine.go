package boatfile

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/source"
	"hushwake/source/said"
)

// engines decodes the section in file order. What an engine's owner doesn't know stays zero: the
// engine model fills it in and lists it with its price in dB.
func (r *reader) engines(n *decode.Node) []path.Engine {
	var out []path.Engine
	for i, k := range r.Section(n, "engines").Keys {
		out = append(out, r.engine(k.Text, n.Values[i]))
	}
	return out
}

func (r *reader) engine(name string, n *decode.Node) path.Engine {
	o := r.Object(n, "engines."+name)
	var e path.Engine
	e.Name = name
	e.Stroke = map[string]source.Stroke{"two-stroke": source.TwoStroke, "four-stroke": source.FourStroke}[o.MustWord("cycle", "two-stroke", "four-stroke")]
	e.Cylinders, _ = r.Whole(o.Must("cylinders", "a whole number, such as 6"), o.Path+" cylinders", 1, 24)
	e.Arrangement = map[string]source.Arrangement{"inline": source.Inline, "vee": source.Vee}[o.Word("arrangement", "inline", "vee")]
	e.Aspiration = map[string]source.Aspiration{"natural": source.Natural, "turbocharged": source.Turbocharged, "blower": source.Blower}[o.Word("aspiration", "natural", "turbocharged", "blower")]
	e.Fuel = map[string]source.Fuel{"diesel": source.Diesel, "petrol": source.Petrol, "gas": source.NaturalGas}[o.Word("fuel", "diesel", "petrol", "gas")]
	e.Displacement, _ = o.Value("displacement", decode.Positive, quantity.Volume)
	e.Bore, _ = o.Value("bore", decode.Positive, quantity.Length)
	e.Piston, _ = o.Value("stroke", decode.Positive, quantity.Length)
	r.engineDuty(o, &e)
	r.engineExhaust(o, &e)
	r.engineShape(o, &e)
	r.enginePlace(o, &e)
	r.standing(o, &e)
	e.Propeller = r.propeller(o)
	o.Done()
	return e
}

// engineDuty reads rated, running, load and the generator.
func (r *reader) engineDuty(o *decode.Object, e *path.Engine) {
	if n := o.Must("rated", "{power: 76 kW, speed: 2000 rpm}"); n != nil {
		d := r.Object(n, o.Path+".rated")
		e.Rated.Power = d.MustValue("power", decode.Positive, quantity.Power)
		e.Rated.Speed = d.MustValue("speed", decode.Positive, quantity.RotationalSpeed)
		d.Done()
	}
	r.load(o, e)
	if n := o.Get("generator"); n != nil {
		g := r.Object(n, o.Path+".generator")
		e.Generator = &source.Generator{}
		e.Generator.Power, _ = g.Value("power", decode.Positive, quantity.Power)
		e.Generator.WaterCooled = g.Word("cooling", "air", "water") == "water"
		if !g.Has("cooling") {
			r.Assume(g.Path+" cooling", "air", "common practice, no source: small sets cool the alternator by the air round it", 0)
		}
		g.Done()
		if e.Load == 0 {
			e.Load = source.ConstantSpeed
			r.Assume(o.Path+" load", "constant-speed", "it drives a generator", 0)
		}
	}
	r.running(o, e)
}

// load reads the load law; a propeller may have its exponent behind it.
func (r *reader) load(o *decode.Object, e *path.Engine) {
	n := o.Get("load")
	if n != nil && n.Kind == decode.Scalar {
		if rest, ok := strings.CutPrefix(strings.ToLower(strings.TrimSpace(n.Text)), "propeller "); ok {
			v, err := strconv.ParseFloat(strings.TrimSpace(rest), 64)
			if err != nil || !(v >= leastExponent && v <= mostExponent) {
				r.Wrong(n, "write propeller 2.5 for a planing boat, propeller alone for any other", "%s load: %q: the exponent of power over speed lies between %g and %g", o.Path, spelling.Clip(n.Text), leastExponent, mostExponent)
			}
			e.Load, e.Exponent = source.Propeller, v
			return
		}
	}
	e.Load = map[string]source.Load{"propeller": source.Propeller, "constant-speed": source.ConstantSpeed}[o.Word("load", "propeller", "constant-speed")]
}

// Exponents of power over speed that a propeller has (judgement).
const leastExponent, mostExponent = 2.0, 3.5

// noLoad stands for a stated running power of none, W: zero means that nothing is stated.
const noLoad = 1.0

func (r *reader) running(o *decode.Object, e *path.Engine) {
	n := o.Get("running")
	if n == nil {
		return
	}
	if n.Kind == decode.Scalar {
		if _, err := quantity.Parse(n.Text, quantity.RotationalSpeed); err == nil {
			r.Wrong(n, "write {speed: "+strings.TrimSpace(n.Text)+"}", "%s running must be a mapping, or stopped", o.Path)
			return
		}
		e.Stopped = r.WordOf(n, o.Path+" running", []string{"stopped"}) != ""
		return
	}
	d := r.Object(n, o.Path+".running")
	if w, ok := d.Value("power", decode.NotNegative, quantity.Power); ok {
		e.Running.Power = math.Max(w, noLoad)
	}
	e.Running.Speed, _ = d.Value("speed", decode.Positive, quantity.RotationalSpeed)
	d.Done()
	r.steady(d.Get("speed"), d.Path+" speed", e, e.Running.Speed)
	r.notAbove(d.Get("power"), d.Path+" power", e.Running.Power, e.Rated.Power, quantity.Power)
	r.notAbove(d.Get("speed"), d.Path+" speed", e.Running.Speed, e.Rated.Speed, quantity.RotationalSpeed)
}

// notAbove refuses a duty above the rated one.
func (r *reader) notAbove(n *decode.Node, what string, running, rated float64, d quantity.Dim) {
	if n != nil && rated > 0 && running > rated*1.0001 {
		r.Wrong(n, "check which of the two figures is the rated one", "%s: %q is above the rated %s", what, spelling.Clip(n.Text), quantity.Format(rated, d, quantity.Metric))
	}
}

func (r *reader) engineExhaust(o *decode.Object, e *path.Engine) {
	if n := o.Get("exhaust"); n != nil {
		x := r.Object(n, o.Path+".exhaust")
		e.Flow, _ = x.Value("flow", decode.Positive, quantity.MassFlow)
		e.Temperature, _ = x.Value("temperature", decode.Limits{Min: 273.15, Max: 1600, OpenMin: true}, quantity.Temperature)
		e.AirFuelRatio, _ = r.Number(x.Get("air_fuel_ratio"), x.Path+" air_fuel_ratio", decode.Limits{Min: 10, Max: 400})
		if e.Temperature > 273.15+800 {
			r.Warn(x.Get("temperature"), "%s temperature %q is hotter than exhaust usually is (diesels {300 to 600 °C}, petrol up to {850 °C})", x.Path, x.Text("temperature"))
		}
		x.Done()
	}
	e.FuelConsumption = r.consumption(o, e)
	e.ExhaustLevel = r.Bands(o.Get("exhaust_level"), o.Path+".exhaust_level")
	e.CasingLevel = r.Bands(o.Get("casing_level"), o.Path+".casing_level")
	if e.Limit = o.Pointer("back_pressure_limit", decode.Positive, quantity.Pressure); e.Limit != nil {
		r.plausibleLimit(o.Get("back_pressure_limit"), *e.Limit)
	}
}

// consumption reads fuel as mass per energy, or as a volume flow at rated power.
func (r *reader) consumption(o *decode.Object, e *path.Engine) float64 {
	q, ok := r.Quantity(o.Get("fuel_consumption"), o.Path+" fuel_consumption", decode.Positive, quantity.Consumption, quantity.VolumeFlow)
	if !ok {
		return 0
	}
	sfc := q.Value
	if q.Dim == quantity.VolumeFlow {
		if e.Rated.Power <= 0 {
			return 0
		}
		density := cmp.Or(e.Fuel.Density(), source.Diesel.Density())
		sfc = q.Value * density / e.Rated.Power
		r.Assume(o.Path+" fuel_consumption", said.Textf("{%.3g L/h} at rated, {%.1f g/kWh}", q.Value*3.6e6, sfc*3.6e9),
			said.Textf("fuel of {%.0f kg/m3}, common practice, no source", density), 0)
	}
	if g := sfc * 3.6e9; g < 150 || g > 600 {
		r.Warn(o.Get("fuel_consumption"), "%s fuel_consumption %q is {%.0f g/kWh} at rated; {190 to 400 g/kWh} is usual", o.Path, q.Text, g)
	}
	return sfc
}

// plausibleLimit points at the slip between inches of mercury and inches of water, a factor 13.6.
func (r *reader) plausibleLimit(n *decode.Node, pa float64) {
	switch {
	case pa > 50e3 && pa/13.6 > 1500:
		r.Warn(n, "a back-pressure limit of %q (%s) is far above what engines allow; were inches of water meant for inches of mercury? 1 inHg is 13.6 inH2O: %s",
			n.Text, quantity.Said(pa, quantity.Pressure), quantity.Said(pa/13.6, quantity.Pressure))
	case pa > 50e3:
		r.Warn(n, "a back-pressure limit of %q (%s) is far above what engines allow ({3 to 15 kPa} is usual)", n.Text, quantity.Said(pa, quantity.Pressure))
	case pa < 1500:
		r.Warn(n, "a back-pressure limit of %q (%s) is lower than engines need ({3 to 15 kPa} is usual); was inHg meant for inH2O? 1 inHg is 13.6 inH2O: %s",
			n.Text, quantity.Said(pa, quantity.Pressure), quantity.Said(pa*13.6, quantity.Pressure))
	}
}

// engineShape reads the firing order and the bank angle.
func (r *reader) engineShape(o *decode.Object, e *path.Engine) {
	order := o.Get("firing_order")
	seen := map[int]bool{}
	for _, item := range r.List(order, o.Path+" firing_order", 1, 24) {
		v, ok := r.Whole(item, o.Path+" firing_order", 1, max(e.Cylinders, 1))
		if ok && seen[v] {
			r.Wrong(item, "", "%s firing_order names cylinder %d twice", o.Path, v)
		}
		seen[v] = true
		e.FiringOrder = append(e.FiringOrder, v)
	}
	if order != nil && e.Cylinders > 0 && len(e.FiringOrder) > 0 && len(e.FiringOrder) != e.Cylinders {
		r.Wrong(order, "", "%s firing_order has %d cylinders; the engine has %d", o.Path, len(e.FiringOrder), e.Cylinders)
	}
	e.BankAngle, _ = o.Value("bank_angle", decode.UpTo(3.2), quantity.Angle)
	if e.BankAngle > 0 && e.Arrangement == source.Inline {
		r.Wrong(o.Get("bank_angle"), "arrangement: vee", "%s: an inline engine has no bank angle", o.Path)
	}
	e.Banks, _ = r.Whole(o.Get("banks"), o.Path+" banks", 1, 2)
}

// enginePlace reads where it stands. The space and the enclosure are looked up when all are known.
func (r *reader) enginePlace(o *decode.Object, e *path.Engine) {
	e.AirCooled = o.Word("cooling", "water", "air") == "air"
	e.In = o.Text("in")
	if e.Enclosure = o.Text("enclosure"); strings.EqualFold(e.Enclosure, "none") {
		e.Enclosure = ""
	}
	at, ok := r.Vector(o.Get("at"), o.Path+" at", decode.AnyValue)
	e.At, e.AtStated = at, ok
}

// propeller reads what the shaft turns.
func (r *reader) propeller(o *decode.Object) (p path.Propeller) {
	n := o.Get("propeller")
	if n == nil {
		return p
	}
	x := r.Object(n, o.Path+".propeller")
	p.Blades, _ = r.Whole(x.Get("blades"), x.Path+" blades", 2, 9)
	p.Gear, _ = r.Number(x.Get("gear"), x.Path+" gear (turns of the engine for one of the shaft)", decode.Limits{Min: 0.5, Max: 10})
	x.Done()
	return p
}
