package scene_test

import (
	"math"
)

// oddKinds draws the fields of an element, by kind, round the bore of the pipe before it, m.
func oddKinds() map[string]func(f *oddFile, bore float64) string {
	return map[string]func(f *oddFile, bore float64) string{
		"pipe": func(f *oddFile, bore float64) string {
			return f.part(bore).set("bore", f.long(f.near(bore))).set("length", f.long(f.some(0.001, 0.05, 5, 100))).may(30, "bends", f.bends).
				may(20, "roughness", func() string { return f.long(f.between(1e-6, 5e-3)) }).may(30, "wall", f.wall).String()
		},
		"bellows": func(f *oddFile, bore float64) string {
			return f.part(bore).may(70, "bore", func() string { return f.long(f.near(bore)) }).may(70, "length", func() string { return f.long(f.some(0.001, 0.1, 1, 4.9)) }).
				may(50, "travel", func() string { return f.long(f.between(0.001, 0.1)) }).String()
		},
		"elbow": func(f *oddFile, bore float64) string {
			return f.part(bore).may(70, "bore", func() string { return f.long(f.near(bore)) }).may(70, "angle", func() string { return plain(f.between(1, 359)) + " deg" }).
				may(50, "radius", func() string { return f.word("0 mm", f.long(f.some(0.001, 0.05, 0.5, 50))) }).String()
		},
		"hose": func(f *oddFile, bore float64) string {
			length := f.some(0.001, 0.1, 8, 100)
			return f.part(bore).set("bore", f.long(f.near(bore))).set("length", f.long(length)).may(30, "bends", f.bends).
				may(50, "rise", func() string { return plain(f.linear(-0.99, 0.99)*min(length, 19)) + " m" }).
				may(30, "max_temperature", func() string { return plain(f.between(20, 500)) + " °C" }).may(30, "wall", func() string { return f.long(f.between(0.003, 0.012)) }).
				may(40, "kind", func() string { return f.word("soft", "hard", "unknown") }).String()
		},
		"chamber":    (*oddFile).chamber,
		"perforated": func(f *oddFile, bore float64) string { m, _ := f.perforate(bore); return m.String() },
		"plugged": func(f *oddFile, bore float64) string {
			m, length := f.perforate(bore)
			return m.may(60, "plug_at", func() string { return f.long(length * 0.5) }).String()
		},
		"packed": func(f *oddFile, bore float64) string {
			m, _ := f.perforate(bore)
			return m.may(70, "flow_resistivity", func() string { return plain(f.some(1, 1000, 1e5, 1e7)) + " Pa.s/m2" }).
				may(50, "fibre", func() string { return f.word("allard-champoux", "delany-bazley", "miki") }).String()
		},
		"side_branch": func(f *oddFile, bore float64) string {
			if f.chance(50) {
				return f.part(bore).may(80, "bore", func() string { return f.long(f.near(bore)) }).may(80, "length", func() string { return f.long(f.some(0.001, 0.1, 2, 20)) }).String()
			}
			return f.part(bore).set("neck", f.fields().may(80, "bore", func() string { return f.long(bore * f.between(0.05, 1)) }).may(80, "length", func() string { return f.long(f.some(0.001, 0.02, 0.3, 10)) }).String()).
				may(80, "volume", func() string { return plain(f.some(1e-3, 0.5, 50, 1e5)) + " L" }).String()
		},
		"parallel": func(f *oddFile, bore float64) string {
			branches := make([]string, f.whole(2, 3))
			for i := range branches {
				branches[i] = list(f.line(bore*0.7, 2, []string{"pipe", "pipe", "chamber", "perforated", "elbow", "packed", "side_branch"})...)
			}
			return f.part(bore).set("branches", list(branches...)).String()
		},
		"water_injection": func(f *oddFile, bore float64) string {
			return f.part(bore).may(70, "flow", func() string { return plain(f.some(1e-3, 5, 300, 1e4)) + " L/min" }).may(50, "temperature", func() string { return plain(f.between(1, 99)) + " °C" }).
				may(60, "height_over_waterline", func() string { return f.word("-", "") + f.long(f.between(0.001, 5)) }).may(40, "bore", func() string { return f.long(f.near(bore)) }).String()
		},
		"lift_chamber": (*oddFile).liftChamber,
		"riser": func(f *oddFile, bore float64) string {
			rise := f.some(0.001, 0.1, 2, 19)
			return f.part(bore).may(80, "bore", func() string { return f.long(f.near(bore)) }).set("rise", f.long(rise)).set("length", f.long(rise*f.between(1.001, 2))).
				may(60, "top_over_waterline", func() string { return f.word("-", "") + f.long(f.between(0.001, 5)) }).String()
		},
		"anti_siphon": func(f *oddFile, bore float64) string {
			return f.part(bore).may(60, "top_over_waterline", func() string { return f.word("-", "") + f.long(f.between(0.001, 5)) }).String()
		},
		"separator": func(f *oddFile, bore float64) string {
			shell := f.some(bore*1.01, bore*1.5, bore*5, 4.9)
			return f.part(bore).set("bore", f.long(shell)).may(70, "height", func() string { return f.long(f.some(0.001, 0.2, 1, 4.9)) }).
				set("drain", f.fields().set("bore", f.long(shell*f.between(0.01, 0.95))).String()).String()
		},
		"given": func(f *oddFile, bore float64) string { return f.offered(f.part(bore)).String() },
	}
}

// near draws a bore near that of the neighbour, at times far from it.
func (f *oddFile) near(bore float64) float64 {
	return f.some(0.001, max(0.001, bore*0.8), min(2.9, bore*1.3), 2.9)
}

func (f *oddFile) wall() string { return f.long(f.between(0.0005, 0.04)) }

func (f *oddFile) bends() string {
	all := make([]string, f.whole(0, 3))
	for i := range all {
		all[i] = f.fields().may(80, "angle", func() string { return plain(f.between(1, 350)) + " deg" }).
			may(60, "radius", func() string { return f.word("0 mm", f.long(f.between(0.001, 10))) }).String()
	}
	return list(all...)
}

// part draws what every element may hold.
func (f *oddFile) part(bore float64) *fields {
	return f.fields().may(20, "name", func() string { return quoted(f.word(oddNames...)) }).
		may(30, "in", func() string { return quoted(f.anywhere()) }).
		may(20, "material", func() string { return f.word("mild steel", "stainless steel", "aluminium", "grp", "rubber", "copper") }).
		may(20, "mass", func() string { return plain(f.between(1e-3, 1e4)) + " kg" }).
		may(20, "price", func() string { return f.word("0", plain(f.between(0.01, 1e7))) }).
		may(20, "lagging", func() string {
			return f.word("none", f.fields().may(70, "thickness", func() string { return f.long(f.between(0.001, 0.45)) }).may(70, "material", func() string { return "mineral wool" }).String())
		}).
		may(15, "envelope", func() string {
			return list(f.long(f.between(0.01, 2)), f.long(f.between(0.01, 2)), f.long(f.between(0.01, 5)))
		})
}

func (f *oddFile) chamber(bore float64) string {
	shell := f.some(bore*1.02, bore*1.5, min(bore*5, 9.9), 9.9)
	rooms := make([]float64, f.whole(1, 3))
	for i := range rooms {
		rooms[i] = f.some(0.001, 0.1, 1.5, 19)
	}
	port := func() string { return f.long(min(2.9, shell*f.between(0.05, 0.95))) }
	m := f.part(bore).set("bore", f.long(shell)).set("inlet_bore", f.word(f.long(min(bore, shell*0.98)), port())).may(40, "outlet_bore", port).
		may(60, "inlet_extension", func() string { return f.word("0 mm", f.long(rooms[0]*f.between(0.001, 0.45))) }).
		may(60, "outlet_extension", func() string { return f.word("0 mm", f.long(rooms[len(rooms)-1]*f.between(0.001, 0.45))) }).
		may(30, "tube_wall", f.wall).may(30, "wall", f.wall)
	if len(rooms) == 1 {
		return m.set("length", f.long(rooms[0])).String()
	}
	var lengths, joints []string
	for _, l := range rooms {
		lengths = append(lengths, f.long(l))
	}
	for i := range len(rooms) - 1 {
		joints = append(joints, f.fields().set("bore", f.long(shell*f.between(0.01, 0.6))).set("wall", f.long(shell*f.between(1e-4, 0.1))).
			may(60, "reaches", func() string {
				return list(f.long(rooms[i]*f.between(1e-3, 0.4)), f.word("0 mm", f.long(rooms[i+1]*f.between(1e-3, 0.4))))
			}).String())
	}
	return m.set("rooms", list(lengths...)).may(60, "joined_by", func() string { return list(joints...) }).may(50, "baffle", func() string { return f.long(f.between(0.0005, 0.09)) }).String()
}

func (f *oddFile) perforate(bore float64) (*fields, float64) {
	own, length := f.near(bore), f.some(0.001, 0.2, 1.5, 19)
	wall := min(0.04, own*f.between(1e-3, 0.2))
	return f.part(bore).set("bore", f.long(own)).set("chamber_bore", f.long(f.some(own*1.5, own*1.6, own*4, max(own*4, 9.9)))).set("length", f.long(length)).
		may(60, "perforated", func() string { return list(f.long(length*f.between(1e-3, 0.4)), f.long(length*f.between(0.6, 0.9999))) }).
		may(80, "porosity", func() string { return plain(f.some(0.01, 3, 40, 94.9)) + " %" }).may(60, "hole", func() string { return f.long(f.between(0.0005, 0.09)) }).
		set("tube_wall", f.long(wall)).may(40, "wall", f.wall).may(60, "impedance", func() string { return f.word("still", "grazing") }), length
}

func (f *oddFile) liftChamber(bore float64) string {
	shell, height := f.some(bore*1.02, bore*1.5, min(4.9, bore*4), 4.9), f.some(0.001, 0.2, 1, 4.9)
	tube := func() string { return f.long(shell * f.between(0.05, 0.95)) }
	return f.part(bore).set("bore", f.long(shell)).set("height", f.long(height)).may(80, "water_level", func() string { return f.word("0 mm", f.long(height*f.between(0.001, 0.98))) }).
		set("dip_tube", f.fields().set("bore", tube()).set("clearance", f.long(height*f.between(0.01, 0.95))).String()).
		set("riser", f.fields().set("bore", tube()).may(80, "rise", func() string { return f.long(f.some(0.001, 0.2, 2, 20)) }).String()).may(30, "wall", f.wall).String()
}

// offered draws the figures of a silencer that is only known by what its maker says.
func (f *oddFile) offered(m *fields) *fields {
	bore := f.some(0.001, 0.03, 0.3, 2.9)
	return m.may(80, "insertion_loss", func() string {
		return f.word(f.bands(0, 60), f.bands(-5, 150), "{overall: "+plain(f.between(0.1, 80))+" dB}", "25 dBA")
	}).may(70, "pressure_drop", func() string { return f.word("0 Pa", plain(f.some(1e-3, 0.1, 20, 100))+" kPa") }).
		may(60, "at_flow", func() string {
			return f.word(plain(f.some(1e-4, 0.01, 2, 100))+" kg/s", plain(f.some(1e-4, 0.01, 2, 100))+" m3/s")
		}).
		may(60, "at_temperature", func() string { return plain(f.linear(-49, 1100)) + " °C" }).
		may(60, "length", func() string { return f.long(f.some(0.001, 0.2, 2, 19)) }).
		set("bore", f.long(bore)).set("diameter", f.long(min(9.9, bore*f.between(1.01, 6))))
}

func (f *oddFile) offer() *fields {
	return f.offered(f.fields()).may(70, "price", func() string { return f.word("0", "GBP 640", plain(f.between(1, 1e6))) }).
		may(40, "mass", func() string { return plain(f.between(0.01, 1e4)) + " kg" }).
		may(40, "claim", func() string { return quoted(f.word("critical grade", "<b>40 dB!</b>")) }).
		may(30, "lead_time", func() string { return "5 weeks" }).may(30, "includes", func() string { return list("flanges", quoted("a, b")) }).
		may(30, "extras", func() string { return "[{what: delivery, price: 60}, {what: fitting, price: unknown}]" }).
		may(50, "pressure_basis", func() string {
			return f.fields().may(50, "gas", func() string { return f.word("air", "exhaust") }).may(60, "temperature", func() string { return plain(f.between(1, 900)) + " °C" }).
				may(80, "at", func() string { return f.word("equal mass", "equal volume", "unknown") }).String()
		}).
		may(40, "level", func() string {
			return f.fields().set("level", plain(f.linear(0, 140))+" dBA").set("distance", f.long(f.some(0.001, 0.5, 10, 100))).
				may(50, "angle", func() string { return plain(f.between(0.1, 180)) + " deg" }).may(50, "load", func() string { return "full" }).String()
		})
}

// line draws the parts of a line, a pipe first.
func (f *oddFile) line(bore float64, most int, kinds []string) []string {
	all := []string{"pipe: " + oddKinds()["pipe"](f, bore)}
	before := "pipe"
	for range f.whole(0, most) {
		kind := f.word(kinds...)
		if kind == "riser" && before == "lift_chamber" {
			kind = "pipe"
		}
		before = kind
		switch kind {
		case "one_of":
			if f.oneOfs++; len(f.quotes) > 0 && f.oneOfs < 3 {
				all = append(all, "one_of: "+list(quotedAll(f.quotes)...))
			}
		case "quote":
			if len(f.quotes) > 0 {
				all = append(all, "quote: "+quoted(f.word(f.quotes...)))
			}
		default:
			all = append(all, kind+": "+oddKinds()[kind](f, bore))
		}
	}
	for i := range all {
		all[i] = "{" + all[i] + "}"
	}
	return all
}

func quotedAll(names []string) (all []string) {
	for _, n := range names {
		all = append(all, quoted(n))
	}
	return all
}

var (
	dryKinds = []string{"pipe", "bellows", "elbow", "chamber", "chamber", "perforated", "plugged", "packed", "side_branch", "parallel", "given", "quote", "one_of"}
	wetKinds = []string{"hose", "water_injection", "lift_chamber", "riser", "anti_siphon", "separator", "pipe", "chamber", "given", "quote"}
)

// layout writes one alternative with a line for each running engine and at times some changes.
func (f *oddFile) layout(line func(string, ...any), name string) {
	f.oneOfs = 0
	line("  - name: %s", quoted(name))
	if f.chance(50) {
		line("    price: %s", f.word("0", "900", "unknown", "123456789"))
	}
	line("    exhausts:")
	for _, e := range f.engines {
		if e.stopped {
			continue
		}
		// A bore that lets the gas through at a fraction of the speed of sound, more or less.
		bore := min(2, max(0.002, 0.012*math.Sqrt(e.power)*f.some(0.2, 0.7, 2, 5)))
		kinds := append([]string(nil), dryKinds...)
		if f.chance(40) {
			kinds = append([]string{"water_injection"}, append(wetKinds, "elbow", "bellows")...)
		}
		line("      %s:", quoted(e.name))
		line("        line: %s", list(f.line(bore, 5, kinds)...))
		line("        outlet: %s", f.outlet(bore))
	}
	if f.oneOfs == 0 { // else its name is that of the offer too
		f.layouts = append(f.layouts, name)
	}
	if f.chance(40) {
		f.changes(line)
	}
}

func (f *oddFile) outlet(bore float64) string {
	m := f.fields().may(80, "pointing", func() string { return f.word("up", "aft", "forward", "port", "starboard", "down") }).may(40, "bore", func() string { return f.long(f.near(bore)) })
	if f.chance(20) {
		return m.set("at", "[0 m, 1 m, -0.2 m]").set("below_waterline", f.long(f.between(0.001, 2))).may(30, "waves", func() string { return f.long(f.between(0.01, 0.3)) }).String()
	}
	return m.set("at", f.point(f.reach())).String()
}

func (f *oddFile) changes(line func(string, ...any)) {
	line("    changes:")
	e := f.engines[f.whole(0, len(f.engines)-1)]
	if !e.stopped {
		line("      engines: {%s: {running: %s}}", quoted(e.name), f.duty(e.power*f.between(0.05, 1), e.speed*f.between(0.91, 1)))
	}
	if len(f.spaces) > 0 {
		line("      spaces: {%s: {lining: %s}}", quoted(f.word(f.spaces...)), f.lining())
	}
	if len(f.boxes) > 0 {
		line("      enclosures: {%s: {openings: %s, fan: none}}", quoted(f.word(f.boxes...)), list(f.opening()))
	}
}
