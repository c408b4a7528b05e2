package silencer

import (
	"math"
	"strings"
)

// form is the outer form of an element. Zero in a port means "that of the neighbour".
type form struct {
	in, out   float64 // m, bores of its ports
	length    float64 // m along the line
	outer     float64 // m, largest outside size without lagging
	tall      float64 // m, height of an upright vessel; 0 = lies along the line
	body      float64 // m, bore of its shell; 0 = none
	mass      float64 // kg by its dimensions; 0 = cannot be told
	silencing bool    // the plain-pipe reference has a plain pipe here
	flexible  bool
	hose      bool
	wets      bool // water joins the gas here
}

const (
	pipeWall  = 3e-3 // m, common practice
	shellWall = 2e-3 // m, common practice
)

// stuff is what a wall is made of.
type stuff struct {
	words     string  // names it goes by
	density   float64 // kg/m3
	expansion float64 // 1/K, mean from 20 to 500 C for metals, from memory
	roughness float64 // m, from memory or common practice
	speed     float64 // m/s, of longitudinal waves in a plate
	emits     float64 // emissivity, from memory
	young     float64 // Pa
}

var (
	steel     = stuff{"mild carbon black", 7850, 13.9e-6, 0.1e-3, 5050, 0.9, 2.0e11}
	stainless = stuff{"stainless 304 316 321", 7950, 18.0e-6, 0.045e-3, 5000, 0.6, 1.95e11}
	ferritic  = stuff{"ferritic 409 430 441", 7700, 11.8e-6, 0.045e-3, 5050, 0.6, 2.0e11}
	aluminium = stuff{"aluminium aluminum", 2700, 23.5e-6, 0.045e-3, 5100, 0.3, 7.0e10}
	copper    = stuff{"copper cupronickel bronze brass", 8900, 17.0e-6, 0.03e-3, 3700, 0.6, 1.2e11}
	rubber    = stuff{"rubber hose silicone epdm", 1250, 0, 0.05e-3, 1500, 0.9, 5e7}
	laminate  = stuff{"grp glass frp plastic fibreglass fiberglass laminate", 1700, 0, 0.03e-3, 2500, 0.9, 1e10}
)

// wallOf is the stuff that a stated material names, or the default of the kind.
func wallOf(material string, otherwise stuff) stuff {
	for _, word := range strings.Fields(strings.ToLower(material)) {
		for _, s := range []stuff{stainless, ferritic, aluminium, copper, rubber, laminate, steel} {
			for _, name := range strings.Fields(s.words) {
				if strings.Trim(word, ".,-") == name {
					return s
				}
			}
		}
	}
	return otherwise
}

// defaultStuff is the wall of a kind whose material is not stated.
func defaultStuff(kind string) stuff {
	switch kind {
	case "hose", "riser":
		return rubber
	case "lift_chamber", "separator":
		return laminate
	case "bellows":
		return stainless
	}
	return steel
}

func density(material string, otherwise stuff) float64 { return wallOf(material, otherwise).density }

// tubeMass is the mass of a round tube, kg.
func tubeMass(material string, otherwise stuff, bore, wall, length float64) float64 {
	return density(material, otherwise) * math.Pi * (bore + wall) * wall * length
}

// vesselMass is the mass of a shell with two flat ends, kg.
func vesselMass(material string, bore, wall, length float64) float64 {
	ends := 2 * density(material, steel) * math.Pi / 4 * bore * bore * wall
	return tubeMass(material, steel, bore, wall, length) + ends
}

func orDefault(v, otherwise float64) float64 {
	if v > 0 {
		return v
	}
	return otherwise
}

func circle(bore float64) float64 { return math.Pi / 4 * bore * bore }

// ends are the bores of an element's ports with the neighbours' filled in.
type ends struct{ in, out float64 }

// ports resolves the bores of all ports: what an element does not say comes from the one before it,
// or from the next that does.
func ports(elements []Element, outlet float64) []ends {
	r := make([]ends, len(elements))
	for i, e := range elements {
		f := e.form()
		r[i] = ends{f.in, f.out}
	}
	last := 0.0
	for i := range r {
		if r[i].in == 0 {
			r[i].in = orDefault(last, firstBore(r[i:], outlet))
		}
		if r[i].out == 0 {
			r[i].out = r[i].in
		}
		last = r[i].out
	}
	return r
}

func firstBore(r []ends, outlet float64) float64 {
	for _, e := range r {
		if e.in > 0 {
			return e.in
		}
		if e.out > 0 {
			return e.out
		}
	}
	return outlet
}
