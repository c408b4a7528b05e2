package boatfile

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/source"
)

// engines decodes the section in file order. What an engine's owner doesn't know stays zero: the
// engine model fills it in and lists it with its price in dB.
func (r *reader) engines(n *node) []path.Engine {
	var out []path.Engine
	for i, k := range r.section(n, "engines").keys {
		out = append(out, r.engine(k.text, n.values[i]))
	}
	return out
}

// section opens a mapping of names; it is never nil.
func (r *reader) section(n *node, what string) *node {
	if n == nil {
		return &node{kind: mapping}
	}
	if n.kind != mapping {
		if n.kind != null {
			r.wrong(n, "", "%s must be a mapping of names, not %s", what, n.kind)
		}
		return &node{kind: mapping}
	}
	if len(n.keys) > many {
		r.wrong(n, "", "%s has %d entries; %d at most", what, len(n.keys), many)
		return &node{kind: mapping}
	}
	for _, k := range n.keys {
		if strings.TrimSpace(k.text) == "" {
			r.wrong(k, "", "a name in %s is empty", what)
		}
	}
	return n
}

func (r *reader) engine(name string, n *node) path.Engine {
	o := r.object(n, "engines."+name)
	var e path.Engine
	e.Name = name
	e.Stroke = map[string]source.Stroke{"two-stroke": source.TwoStroke, "four-stroke": source.FourStroke}[o.mustWord("cycle", "two-stroke", "four-stroke")]
	e.Cylinders, _ = r.whole(o.must("cylinders", "a whole number, such as 6"), o.path+" cylinders", 1, 24)
	e.Arrangement = map[string]source.Arrangement{"inline": source.Inline, "vee": source.Vee}[o.word("arrangement", "inline", "vee")]
	e.Aspiration = map[string]source.Aspiration{"natural": source.Natural, "turbocharged": source.Turbocharged, "blower": source.Blower}[o.word("aspiration", "natural", "turbocharged", "blower")]
	e.Fuel = map[string]source.Fuel{"diesel": source.Diesel, "petrol": source.Petrol, "gas": source.NaturalGas}[o.word("fuel", "diesel", "petrol", "gas")]
	e.Displacement, _ = o.value("displacement", positive, quantity.Volume)
	e.Bore, _ = o.value("bore", positive, quantity.Length)
	e.Piston, _ = o.value("stroke", positive, quantity.Length)
	r.engineDuty(o, &e)
	r.engineExhaust(o, &e)
	r.engineShape(o, &e)
	r.enginePlace(o, &e)
	r.standing(o, &e)
	e.Propeller = r.propeller(o)
	o.done()
	return e
}

func (o *object) mustWord(key string, allowed ...string) string {
	n := o.must(key, strings.Join(allowed, " or "))
	if n == nil {
		return ""
	}
	return o.r.wordOf(n, o.path+" "+key, allowed)
}

// engineDuty reads rated, running, load and the generator.
func (r *reader) engineDuty(o *object, e *path.Engine) {
	if n := o.must("rated", "{power: 76 kW, speed: 2000 rpm}"); n != nil {
		d := r.object(n, o.path+".rated")
		e.Rated.Power = d.mustValue("power", positive, quantity.Power)
		e.Rated.Speed = d.mustValue("speed", positive, quantity.RotationalSpeed)
		d.done()
	}
	r.load(o, e)
	if n := o.get("generator"); n != nil {
		g := r.object(n, o.path+".generator")
		e.Generator = &source.Generator{}
		e.Generator.Power, _ = g.value("power", positive, quantity.Power)
		e.Generator.WaterCooled = g.word("cooling", "air", "water") == "water"
		if !g.has("cooling") {
			r.assume(g.path+" cooling", "air", "common practice, no source: small sets cool the alternator by the air round it", 0)
		}
		g.done()
		if e.Load == 0 {
			e.Load = source.ConstantSpeed
			r.assume(o.path+" load", "constant-speed", "it drives a generator", 0)
		}
	}
	r.running(o, e)
}

// load reads the load law; a propeller may have its exponent behind it.
func (r *reader) load(o *object, e *path.Engine) {
	n := o.get("load")
	if n != nil && n.kind == scalar {
		if rest, ok := strings.CutPrefix(strings.ToLower(strings.TrimSpace(n.text)), "propeller "); ok {
			v, err := strconv.ParseFloat(strings.TrimSpace(rest), 64)
			if err != nil || !(v >= leastExponent && v <= mostExponent) {
				r.wrong(n, "write propeller 2.5 for a planing boat, propeller alone for any other", "%s load: %q: the exponent of power over speed lies between %g and %g", o.path, spelling.Clip(n.text), leastExponent, mostExponent)
			}
			e.Load, e.Exponent = source.Propeller, v
			return
		}
	}
	e.Load = map[string]source.Load{"propeller": source.Propeller, "constant-speed": source.ConstantSpeed}[o.word("load", "propeller", "constant-speed")]
}

// Exponents of power over speed that a propeller has (judgement).
const leastExponent, mostExponent = 2.0, 3.5

// noLoad stands for a stated running power of none, W: zero means that nothing is stated.
const noLoad = 1.0

func (r *reader) running(o *object, e *path.Engine) {
	n := o.get("running")
	if n == nil {
		return
	}
	if n.kind == scalar {
		if _, err := quantity.Parse(n.text, quantity.RotationalSpeed); err == nil {
			r.wrong(n, "write {speed: "+strings.TrimSpace(n.text)+"}", "%s running must be a mapping, or stopped", o.path)
			return
		}
		e.Stopped = r.wordOf(n, o.path+" running", []string{"stopped"}) != ""
		return
	}
	d := r.object(n, o.path+".running")
	if w, ok := d.value("power", notNegative, quantity.Power); ok {
		e.Running.Power = math.Max(w, noLoad)
	}
	e.Running.Speed, _ = d.value("speed", positive, quantity.RotationalSpeed)
	d.done()
	r.steady(d.get("speed"), d.path+" speed", e)
	r.notAbove(d.get("power"), d.path+" power", e.Running.Power, e.Rated.Power, quantity.Power)
	r.notAbove(d.get("speed"), d.path+" speed", e.Running.Speed, e.Rated.Speed, quantity.RotationalSpeed)
}

// notAbove refuses a duty above the rated one.
func (r *reader) notAbove(n *node, what string, running, rated float64, d quantity.Dim) {
	if n != nil && rated > 0 && running > rated*1.0001 {
		r.wrong(n, "check which of the two figures is the rated one", "%s: %q is above the rated %s", what, spelling.Clip(n.text), quantity.Format(rated, d, quantity.Metric))
	}
}

func (r *reader) engineExhaust(o *object, e *path.Engine) {
	if n := o.get("exhaust"); n != nil {
		x := r.object(n, o.path+".exhaust")
		e.Flow, _ = x.value("flow", positive, quantity.MassFlow)
		e.Temperature, _ = x.value("temperature", limits{min: 273.15, max: 1600, openMin: true}, quantity.Temperature)
		e.AirFuelRatio, _ = r.number(x.get("air_fuel_ratio"), x.path+" air_fuel_ratio", limits{min: 10, max: 400})
		if e.Temperature > 273.15+800 {
			r.warn(x.get("temperature"), "%s temperature %q is hotter than exhaust usually is (diesels 300 to 600 °C, petrol up to 850 °C)", x.path, x.text("temperature"))
		}
		x.done()
	}
	e.FuelConsumption = r.consumption(o, e)
	e.ExhaustLevel = r.bands(o.get("exhaust_level"), o.path+".exhaust_level")
	e.CasingLevel = r.bands(o.get("casing_level"), o.path+".casing_level")
	if e.Limit = o.pointer("back_pressure_limit", positive, quantity.Pressure); e.Limit != nil {
		r.plausibleLimit(o.get("back_pressure_limit"), *e.Limit)
	}
}

// consumption reads fuel as mass per energy, or as a volume flow at rated power.
func (r *reader) consumption(o *object, e *path.Engine) float64 {
	q, ok := r.quantity(o.get("fuel_consumption"), o.path+" fuel_consumption", positive, quantity.Consumption, quantity.VolumeFlow)
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
		r.assume(o.path+" fuel_consumption", fmt.Sprintf("%s at rated, %s", q.Text, quantity.Format(sfc, quantity.Consumption, quantity.Metric)),
			fmt.Sprintf("fuel of %.0f kg/m3, common practice, no source", density), 0)
	}
	if g := sfc * 3.6e9; g < 150 || g > 600 {
		r.warn(o.get("fuel_consumption"), "%s fuel_consumption %q is %.0f g/kWh at rated; 190 to 400 g/kWh is usual", o.path, q.Text, g)
	}
	return sfc
}

// plausibleLimit points at the slip between inches of mercury and inches of water, a factor 13.6.
func (r *reader) plausibleLimit(n *node, pa float64) {
	switch {
	case pa > 50e3 && pa/13.6 > 1500:
		r.warn(n, "a back-pressure limit of %q (%s) is far above what engines allow; were inches of water meant for inches of mercury? 1 inHg is 13.6 inH2O: %s",
			n.text, quantity.Format(pa, quantity.Pressure, quantity.Metric), quantity.Format(pa/13.6, quantity.Pressure, quantity.Metric))
	case pa > 50e3:
		r.warn(n, "a back-pressure limit of %q (%s) is far above what engines allow (3 to 15 kPa is usual)", n.text, quantity.Format(pa, quantity.Pressure, quantity.Metric))
	case pa < 1500:
		r.warn(n, "a back-pressure limit of %q (%s) is lower than engines need (3 to 15 kPa is usual); was inHg meant for inH2O? 1 inHg is 13.6 inH2O: %s",
			n.text, quantity.Format(pa, quantity.Pressure, quantity.Metric), quantity.Format(pa*13.6, quantity.Pressure, quantity.Metric))
	}
}

// engineShape reads the firing order and the bank angle.
func (r *reader) engineShape(o *object, e *path.Engine) {
	order := o.get("firing_order")
	seen := map[int]bool{}
	for _, item := range r.list(order, o.path+" firing_order", 1, 24) {
		v, ok := r.whole(item, o.path+" firing_order", 1, max(e.Cylinders, 1))
		if ok && seen[v] {
			r.wrong(item, "", "%s firing_order names cylinder %d twice", o.path, v)
		}
		seen[v] = true
		e.FiringOrder = append(e.FiringOrder, v)
	}
	if order != nil && e.Cylinders > 0 && len(e.FiringOrder) > 0 && len(e.FiringOrder) != e.Cylinders {
		r.wrong(order, "", "%s firing_order has %d cylinders; the engine has %d", o.path, len(e.FiringOrder), e.Cylinders)
	}
	e.BankAngle, _ = o.value("bank_angle", upTo(3.2), quantity.Angle)
	if e.BankAngle > 0 && e.Arrangement == source.Inline {
		r.wrong(o.get("bank_angle"), "arrangement: vee", "%s: an inline engine has no bank angle", o.path)
	}
	e.Banks, _ = r.whole(o.get("banks"), o.path+" banks", 1, 2)
}

// enginePlace reads where it stands. The space and the enclosure are looked up when all are known.
func (r *reader) enginePlace(o *object, e *path.Engine) {
	e.AirCooled = o.word("cooling", "water", "air") == "air"
	e.In = o.text("in")
	if e.Enclosure = o.text("enclosure"); strings.EqualFold(e.Enclosure, "none") {
		e.Enclosure = ""
	}
	at, ok := r.vector(o.get("at"), o.path+" at", anyValue)
	e.At, e.AtStated = at, ok
}
