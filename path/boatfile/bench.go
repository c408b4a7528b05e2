package boatfile

import (
	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/source/gas"
)

// bench reads the uniform medium that stands in for an engine.
func (r *reader) bench(n *decode.Node) *path.Bench {
	if n == nil {
		return nil
	}
	o := r.Object(n, "bench")
	b := &path.Bench{Gas: r.benchGas(o)}
	b.Temperature = o.OrAssume("temperature", quantity.Temperature, decode.Limits{Min: 200, Max: 1600}, 293.15, "a bench at room temperature", 0)
	b.MassFlow = o.OrAssume("mass_flow", quantity.MassFlow, decode.NotNegative, 0, "a bench without flow", 0)
	b.Walls = o.WordOr("walls", "viscothermal", "viscothermal", "lossless")
	b.Corrections = o.WordOr("corrections", "full", "full", "none")
	b.Method = o.Word("method", "modes", "plane")
	o.Done()
	return b
}

// benchGas reads the medium: air, exhaust, or one stated outright.
func (r *reader) benchGas(o *decode.Object) gas.Gas {
	kind := o.Word("gas", "air", "exhaust", "stated")
	if kind == "stated" {
		g := gas.Gas{Kind: gas.Stated, SoundSpeed: o.MustValue("speed_of_sound", decode.Limits{Min: 50, Max: 3000}, quantity.Speed), Density: o.MustValue("density", decode.Limits{Min: 0.01, Max: 2000}, quantity.Density)}
		r.twoTemperatures(o, g)
		return g
	}
	for _, k := range []string{"speed_of_sound", "density"} {
		if v := o.Get(k); v != nil {
			r.Wrong(v, "gas: stated", "bench %s is given by the gas; state it with gas: stated only", k)
		}
	}
	ratio, ok := r.Number(o.Get("air_fuel_ratio"), "bench air_fuel_ratio", decode.Limits{Min: 10, Max: 400})
	if kind == "exhaust" && !ok {
		ratio = 24
		r.Assume("bench air_fuel_ratio", "24", practice, 0)
	}
	if kind == "exhaust" {
		return gas.Gas{Kind: gas.Exhaust, AirFuelRatio: ratio}
	}
	if !o.Has("gas") {
		r.Assume("bench gas", "air", "as a bench has it", 0)
	}
	return gas.Gas{Kind: gas.Air}
}

// twoTemperatures warns of a gas whose density belongs to one temperature and whose speed of sound to
// another: rho c^2/p is the ratio of specific heats, 1.05 to 1.67 for any gas at one atmosphere (derived).
func (r *reader) twoTemperatures(o *decode.Object, g gas.Gas) {
	if g.Density > 50 { // a liquid
		return
	}
	if k := g.Density * g.SoundSpeed * g.SoundSpeed / gas.Atmosphere; k > 0 && (k < 1.05 || k > 1.67) {
		r.Warn(o.Get("density"), "bench: a density of %.3g kg/m3 and a speed of sound of %.4g m/s do not belong to one temperature at 1 atm: they make a ratio of specific heats of %.2f, where gases have 1.05 to 1.67", g.Density, g.SoundSpeed, k)
	}
}
