package boatfile

import (
	"math"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/quantity"
	"hushwake/silencer"
	"hushwake/silencer/wet"
)

var directions = map[string]silencer.Direction{"forward": {1, 0, 0}, "aft": {-1, 0, 0}, "starboard": {0, 1, 0}, "port": {0, -1, 0}, "up": {0, 0, 1}, "down": {0, 0, -1}}

// outlet reads where the line ends; on the bench there may be none.
func (r *reader) outlet(o *decode.Object, lr *lines.Reader, bench bool) silencer.Outlet {
	out := silencer.Outlet{Bore: lr.Bore()}
	n := o.Get("outlet")
	if n == nil && !bench {
		n = o.Must("outlet", "{at: [4.6 m, 0.3 m, 4.1 m], pointing: up}")
	}
	if n == nil {
		return out
	}
	x := r.Object(n, o.Path+".outlet")
	out.Present = true
	at := x.Get("at")
	if !bench {
		at = x.Must("at", "[4.6 m, 0.3 m, 4.1 m]")
	}
	out.At, _ = r.Vector(at, x.Path+" at", decode.AnyValue)
	out.Pointing = r.pointing(x, bench)
	if v, ok := x.Value("bore", decode.UpTo(3), quantity.Length); ok {
		out.Bore = v
	}
	out.BelowWater, _ = x.Value("below_waterline", decode.NotNegative, quantity.Length)
	if out.BelowWater > 0 && out.At[2] > 0.05 {
		r.Wrong(x.Get("below_waterline"), "z counts up from the waterline; below it is negative", "%s is below the waterline, but its z is %s above it", x.Path, quantity.Format(out.At[2], quantity.Length, quantity.Metric))
	}
	r.atWater(x, &out, bench)
	x.Done()
	return out
}

// atWater reads how the mouth lies in the water.
func (r *reader) atWater(x *decode.Object, out *silencer.Outlet, bench bool) {
	waves, stated := x.Value("waves", decode.Limits{Min: 0.005, Max: 1}, quantity.Length)
	out.Waves = waves
	switch z := out.At[2]; {
	case bench:
		return
	case out.BelowWater == 0 && z < 0 && !x.Has("below_waterline"):
		out.BelowWater = -z
		r.Assume(x.Path+" below_waterline", quantity.Said(-z, quantity.Length), "its place", 1)
	case out.BelowWater > 0 && math.Abs(z+out.BelowWater) > 0.05:
		r.Warn(x.Get("below_waterline"), "%s: below_waterline %s and z %s are not one depth; the first is taken", x.Path, quantity.Said(out.BelowWater, quantity.Length), quantity.Said(z, quantity.Length))
	}
	if low := out.Height() - out.Bore/2; !stated && !x.Has("waves") && low < 4*wet.UsualWaves {
		r.Assume(x.Path+" waves", quantity.Said(wet.UsualWaves, quantity.Length), "judgement: standard deviation of the level at the mouth", 1)
	}
}

// pointing reads which way the outlet points; aft when nobody says.
func (r *reader) pointing(x *decode.Object, bench bool) silencer.Direction {
	word := x.Word("pointing", "up", "aft", "forward", "port", "starboard", "down")
	if word == "" {
		word = "aft"
		if !x.Has("pointing") && !bench {
			r.AssumeOf(x.Path, "pointing", word, practice, 3)
		}
	}
	return directions[word]
}
