package scene_test

import (
	"math"
	"strings"

	"pgregory.net/rapid"
)

func (f *oddFile) engine(name string) string {
	e := oddEngine{name: name, cylinders: f.whole(1, 16), power: f.some(0.001, 2, 500, 40000), speed: f.some(41, 800, 4000, 7900)}
	m := f.fields().set("cycle", f.word("two-stroke", "four-stroke")).set("rated", f.duty(e.power, e.speed))
	if f.chance(30) {
		e.cylinders = 2 * (1 + e.cylinders/2)
		m.set("arrangement", "vee").may(50, "bank_angle", func() string { return plain(f.between(1, 180)) + " deg" }).
			may(40, "banks", func() string { return f.word("1", "2") })
	}
	m.set("cylinders", plain(float64(e.cylinders)))
	if e.stopped = f.chance(15); e.stopped {
		m.set("running", "stopped")
	} else {
		m.may(50, "running", func() string { return f.duty(e.power*f.between(0.05, 1), e.speed*f.between(0.91, 1)) })
	}
	f.engines = append(f.engines, e)
	f.engineBody(m, e)
	f.enginePlace(m, e)
	return m.String()
}

func (f *oddFile) duty(kW, rpm float64) string {
	return f.fields().set("power", plain(kW*0.9999)+" kW").set("speed", plain(rpm*0.9999)+" rpm").String()
}

func (f *oddFile) engineBody(m *fields, e oddEngine) {
	m.may(40, "aspiration", func() string { return f.word("natural", "turbocharged", "blower") }).
		may(40, "fuel", func() string { return f.word("diesel", "petrol", "gas") }).
		may(40, "load", func() string { return f.word("propeller", "constant-speed") }).
		may(30, "displacement", func() string { return plain(f.between(0.3, 3)*e.power/e.speed*40) + " L" }).
		may(30, "back_pressure_limit", func() string { return plain(f.some(0.001, 2, 20, 1000)) + " kPa" }).
		may(20, "exhaust_level", func() string { return f.bands(-20, 180) }).
		may(20, "casing_level", func() string { return f.bands(-20, 180) }).
		may(30, "fuel_consumption", func() string { return plain(f.between(185, 1400)) + " g/kWh" }).
		may(20, "exhaust", func() string {
			return f.fields().may(50, "flow", func() string { return plain(e.power*f.between(5e-4, 5e-3)) + " kg/s" }).
				may(50, "temperature", func() string { return plain(f.between(60, 800)) + " °C" }).
				may(40, "air_fuel_ratio", func() string { return plain(f.between(11, 190)) }).String()
		}).
		may(20, "firing_order", func() string {
			order := make([]int, e.cylinders)
			for i := range order {
				order[i] = i + 1
			}
			var all []string
			for _, c := range rapid.Permutation(order).Draw(f.t, "order") {
				all = append(all, plain(float64(c)))
			}
			return list(all...)
		})
}

func (f *oddFile) enginePlace(m *fields, e oddEngine) {
	m.may(70, "in", func() string { return quoted(f.anywhere()) }).
		may(60, "at", func() string { return f.point(f.reach()) }).
		may(25, "generator", func() string {
			return f.fields().may(70, "power", func() string { return plain(e.power*f.between(0.01, 0.95)) + " kW" }).
				may(50, "cooling", func() string { return f.word("air", "water") }).String()
		})
	if len(f.boxes) > 0 {
		m.may(60, "enclosure", func() string { return quoted(f.word(f.boxes...)) })
	}
}

func (f *oddFile) lining() string {
	return f.word("bare steel", "furnished cabin", "sparse cabin", "50 mm mineral wool", "25 mm foam", "1 mm foam", "open", "none", "bare", "carpet", "lined engine space", "500 mm glass fibre")
}

func (f *oddFile) size(lo, hi float64) [3]float64 {
	return [3]float64{f.some(lo, lo*100, hi/20, hi), f.some(lo, lo*100, hi/20, hi), f.some(lo, lo*100, hi/20, hi)}
}

func (f *oddFile) lengths(s [3]float64) string { return list(f.long(s[0]), f.long(s[1]), f.long(s[2])) }

func (f *oddFile) space(name string) string {
	return f.fields().may(70, "at", func() string { return f.point(f.reach()) }).
		may(80, "size", func() string {
			size := f.size(0.001, 100)
			f.rooms[name] = size
			return f.lengths(size)
		}).may(60, "lining", f.lining).may(30, "faces", f.faces).String()
}

// faces draws what the sides of a space are made of.
func (f *oddFile) faces() string {
	m := f.fields()
	for _, side := range []string{"forward", "aft", "port", "starboard", "roof", "floor"} {
		m.may(40, side, func() string { return f.word("none", f.layers()) })
	}
	return m.String()
}

// largest is the smaller of the largest faces of two spaces, m2: no wall between them fits that is twice as large.
func (f *oddFile) largest(between ...string) float64 {
	least := 1e4
	for _, name := range between {
		if s, ok := f.rooms[name]; ok {
			least = math.Min(least, math.Max(s[0]*s[1], math.Max(s[0]*s[2], s[1]*s[2])))
		}
	}
	return least
}

// layers draws a build-up.
func (f *oddFile) layers() string {
	all := make([]string, f.whole(1, 5))
	for i := range all {
		all[i] = f.word(f.long(f.between(0.0005, 0.1))+" "+f.word("steel", "plywood", "glass", "GRP", "acrylic", "mineral wool", "foam", "air gap", "lead", "aluminium", "cork", "rubber", "glass fibre"),
			plain(f.between(0.1, 100))+" kg/m2 limp mat", f.word("carpet", "solid door", "hollow door", "air gap", "plywood", "mineral wool"))
		all[i] = quoted(all[i])
	}
	return list(all...)
}

func (f *oddFile) partition() string {
	sides := append([]string{"outside"}, f.spaces...)
	if len(sides) < 2 {
		sides = append(sides, "hold") // no such space: the file must say so
	}
	i := f.whole(0, len(sides)-2)
	j := f.whole(i+1, len(sides)-1)
	largest := f.largest(sides[i], sides[j])
	area := f.some(1e-6, largest*0.01, largest, largest*1.9)
	facing, stated := f.word("forward", "aft", "port", "starboard", "up", "down"), f.chance(50)
	if s, ok := f.rooms[sides[j]]; ok && stated && sides[i] == "outside" { // a face holds less than the largest
		area = math.Min(area, 1.9*map[bool]float64{true: s[0] * s[1], false: math.Min(s[0], s[1]) * s[2]}[facing == "up" || facing == "down"])
	}
	return f.fields().set("between", list(quoted(sides[i]), quoted(sides[j]))).
		may(30, "name", func() string { return quoted(f.word("engine door", "windows", "hatch", "wall", "<u>, \"q\"")) }).
		may(85, "area", func() string { return plain(area) + " m2" }).
		may(80, "build_up", f.layers).
		may(40, "open_area", func() string { return plain(area*f.between(1e-6, 0.9)) + " m2" }).
		may(map[bool]int{true: 50, false: 0}[stated], "at", func() string { return f.point(f.reach()) }).
		may(map[bool]int{true: 100, false: 0}[stated], "facing", func() string { return facing }).String()
}

func (f *oddFile) box() string {
	m := f.fields().may(80, "size", func() string { return f.lengths(f.size(0.001, 10)) }).may(80, "build_up", f.layers).may(60, "lining", f.lining).
		may(40, "heat", func() string { return plain(f.between(1e-3, 1e4)) + " W" }).
		may(40, "own_air_pipe", func() string {
			return f.word("true", "false", "yes", f.fields().may(80, "bore", func() string { return f.long(f.some(0.001, 0.02, 0.2, 2)) }).may(50, "length", func() string { return f.long(f.some(0.001, 0.1, 3, 100)) }).String())
		}).
		may(20, "limit", func() string { return plain(f.linear(1, 190)) + " °C" }).
		may(20, "gap", func() string { return f.long(f.some(1e-4, 0.01, 0.2, 3)) }).
		may(20, "door", func() string {
			return f.word("none", f.fields().may(70, "seal_length", func() string { return f.long(f.some(0.01, 1, 5, 50)) }).may(70, "gap", func() string { return f.word("0 mm", f.long(f.some(1e-5, 1e-4, 2e-3, 0.05))) }).String())
		}).
		may(50, "fan", func() string {
			fan := f.fields().may(20, "sound_power", func() string { return plain(f.linear(20, 140)) + " dBA" }).may(20, "running", func() string { return "stopped" }).may(20, "ignition_protected", func() string { return f.word("yes", "no") })
			if f.whole(0, 2) == 0 {
				q, p := f.some(1e-5, 1e-4, 1e-2, 2), f.between(0.01, 1e4)
				return fan.set("curve", list(list("0 m3/s", plain(p)+" Pa"), list(plain(q)+" m3/s", plain(p/2)+" Pa"))).String()
			}
			return f.word("none", fan.may(90, "flow", func() string { return plain(f.some(1e-5, 1e-4, 1e-2, 2)) + " m3/s" }).
				may(60, "at_pressure", func() string { return plain(f.between(0.01, 1e4)) + " Pa" }).String())
		})
	m.may(70, "openings", func() string {
		all := make([]string, f.whole(0, 4))
		for i := range all {
			all[i] = f.opening()
		}
		return list(all...)
	})
	return m.String()
}

func (f *oddFile) opening() string {
	side := f.some(1e-4, 0.02, 0.2, 1)
	return f.fields().may(90, "role", func() string { return f.word("inlet", "outlet", "leak") }).
		may(40, "to", func() string { return quoted(f.anywhere()) }).
		may(30, "at", func() string { return f.point(f.reach()) }).
		may(30, "facing", func() string { return f.word("forward", "aft", "port", "starboard", "up", "down") }).
		may(90, "area", func() string {
			return f.word(plain(side*side)+" m2", quoted(plain(side*1000)+" mm hole"), quoted(f.long(side)+" x "+f.long(side/2)))
		}).
		may(50, "lined_duct", func() string {
			return f.word("none", f.fields().may(80, "length", func() string { return f.long(f.some(0.001, 0.1, 3, 100)) }).
				may(60, "size", func() string { return list(f.long(f.some(0.001, 0.05, 0.3, 20)), f.long(f.some(0.001, 0.05, 0.3, 20))) }).
				may(60, "lining", f.lining).may(50, "bends", func() string { return plain(float64(f.whole(0, 20))) }).String())
		}).String()
}

func (f *oddFile) listener() string {
	return f.fields().set("at", f.point(f.reach())).may(70, "in", func() string { return quoted(f.anywhere()) }).
		may(40, "hours", func() string { return plain(f.linear(0, 24)) + " h" }).
		may(40, "limit", func() string { return plain(f.linear(-10, 140)) + " dBA" }).String()
}

func (f *oddFile) edge() string {
	return f.fields().may(70, "name", func() string { return quoted(f.word(oddNames...)) }).
		may(90, "from", func() string { return f.point(f.reach()) }).may(90, "to", func() string { return f.point(6) }).String()
}

func (f *oddFile) material() string {
	absorption := make([]string, 9)
	for i := range absorption {
		absorption[i] = plain(f.linear(0, 1.2))
	}
	return f.fields().set("name", quoted("mat of "+strings.TrimSpace(f.word("our own", "odd name")))).
		may(80, "density", func() string { return plain(f.between(0.1, 2e4)) + " kg/m3" }).
		may(50, "critical", func() string { return plain(f.between(0.01, 100)) }).
		may(50, "damping", func() string { return plain(f.between(1e-4, 1)) }).
		may(50, "thickness", func() string { return f.long(f.between(0.001, 0.2)) }).
		may(50, "absorption", func() string { return list(absorption...) }).
		may(50, "price", func() string { return plain(f.between(1, 1e5)) }).may(50, "source", func() string { return quoted("weighed") }).String()
}

// reading draws one that names what the file holds; not each fits together.
func (f *oddFile) reading() string {
	running := []oddEngine{}
	for _, e := range f.engines {
		if !e.stopped {
			running = append(running, e)
		}
	}
	m := f.fields()
	if len(f.layouts) > 0 {
		m.may(70, "layout", func() string { return quoted(f.word(f.layouts...)) })
	}
	at := func(e oddEngine) string {
		return f.fields().set("engine", quoted(e.name)).may(70, "speed", func() string { return plain(e.speed*f.between(0.3, 1)*0.999) + " rpm" }).
			may(20, "power", func() string { return plain(e.power*f.between(0.1, 1)*0.999) + " kW" }).String()
	}
	if len(running) > 0 {
		e := running[f.whole(0, len(running)-1)]
		m.may(60, "running", func() string { return at(e) })
		if f.chance(25) {
			return m.set("engine", quoted(e.name)).set("back_pressure", plain(f.between(1e-3, 100))+" kPa").may(40, "plus_minus", func() string { return plain(f.between(1e-3, 10)) + " kPa" }).String()
		}
	}
	if len(f.spaces) > 0 && f.chance(30) {
		m.set("space", quoted(f.word(f.spaces...)))
	} else {
		m.set("listener", quoted(f.word(f.listeners...)))
	}
	level := f.linear(5, 150)
	return m.set("level", plain(level)+f.word(" dBA", " dB", " dBC")).may(60, "plus_minus", func() string { return plain(f.between(0.01, 20)) + " dB" }).
		may(50, "background", func() string { return plain(math.Max(0, level-f.between(0.5, 60))) + " dB" }).
		may(50, "instrument", func() string { return quoted(f.word("phone", "meter", "<b>")) }).String()
}
