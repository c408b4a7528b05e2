package source

import (
	"math"
	"math/cmplx"
	"sort"
)

// defaultScatter is the relative rms difference between the pulses of an engine's cylinders, from
// memory 5 to 10 %; the upper end, because unequal manifold branches come on top.
const defaultScatter = 0.10

func (e Engine) scatter() float64 {
	if e.Scatter != nil {
		return *e.Scatter
	}
	return defaultScatter
}

// period is the crank angle of a cycle, rad.
func (e Engine) period() float64 {
	if e.Stroke == TwoStroke {
		return 2 * math.Pi
	}
	return 4 * math.Pi
}

// pipes is the number of exhaust pipes.
func (e Engine) pipes() int { return max(e.Banks, 1) }

// pulseTrain is the strength of a crank order in the sum of equal pulses at the given crank angles,
//
//	s = sqrt( |sum exp(-j o phi_i)|^2 / N^2 + sigma^2 / N )
//
// where sigma is the relative rms scatter between cylinders: its mean energy over many engines is white over the
// orders. 1 = all pulses add up. Angles are in rad of the crank; order and scatter are plain numbers.
func pulseTrain(angles []float64, order, scatter float64) float64 {
	n := float64(len(angles))
	if n == 0 {
		return 0
	}
	var sum complex128
	for _, a := range angles {
		sum += cmplx.Exp(complex(0, -order*a))
	}
	s := cmplx.Abs(sum) / n
	if s < 1e-9 {
		s = 0
	}
	return math.Sqrt(s*s + scatter*scatter/n)
}

// firingAngles gives the crank angle, rad, at which each cylinder of the firing order fires.
func (e Engine) firingAngles() []float64 {
	if len(e.FiringAngles) > 0 {
		return e.FiringAngles
	}
	n := e.Cylinders
	angles := make([]float64, n)
	for i := range angles {
		angles[i] = e.period() * float64(i) / float64(n)
	}
	if b, odd := e.unevenBank(); odd {
		e.shiftBank(angles, b)
	}
	return angles
}

// unevenBank tells whether a stated bank angle makes the engine fire unevenly. With shared crankpins
// the second bank fires a bank angle after the first. A multiple of the even interval changes
// nothing; an angle under 0.7 of it is taken as split pins, which fire evenly, except for a twin.
func (e Engine) unevenBank() (shift float64, uneven bool) {
	if e.arrangement() != Vee || e.BankAngle == 0 || e.Cylinders < 2 {
		return 0, false
	}
	even := e.period() / float64(e.Cylinders)
	off := math.Abs(math.Remainder(e.BankAngle, even))
	if off < 2*math.Pi/180 {
		return 0, false
	}
	if e.Cylinders == 2 {
		return e.period()/2 - e.BankAngle, e.Stroke == FourStroke
	}
	return e.BankAngle, e.BankAngle > 0.7*even
}

// shiftBank moves every second pulse to the bank angle after the one before.
func (e Engine) shiftBank(angles []float64, bank float64) {
	for i := 1; i < len(angles); i += 2 {
		angles[i] = angles[i-1] + bank
	}
}

// usualOrders are common firing orders (common practice, no source); vee engines are numbered odd on
// one bank and even on the other.
var usualOrders = map[Arrangement]map[int][]int{
	Inline: {3: {1, 3, 2}, 4: {1, 3, 4, 2}, 5: {1, 2, 4, 5, 3}, 6: {1, 5, 3, 6, 2, 4}, 8: {1, 6, 2, 5, 8, 3, 7, 4}},
	Vee:    {8: {1, 8, 4, 3, 6, 5, 7, 2}},
}

// firingOrder gives the cylinder numbers in the order in which they fire.
func (e Engine) firingOrder() []int {
	if len(e.FiringOrder) == e.Cylinders {
		return e.FiringOrder
	}
	if o, ok := usualOrders[e.arrangement()][e.Cylinders]; ok && e.Stroke == FourStroke {
		return o
	}
	order := make([]int, e.Cylinders)
	for i := range order {
		order[i] = i + 1
	}
	return order
}

// bankOf is the pipe, from 0, into which a cylinder blows: odd and even numbers for a vee, equal
// groups from the front for a row.
func (e Engine) bankOf(cylinder int) int {
	if e.arrangement() == Vee {
		return (cylinder - 1) % e.pipes()
	}
	return (cylinder - 1) * e.pipes() / e.Cylinders
}

// Pulses gives the crank angles, rad, at which pulses enter one exhaust pipe (the first bank's if
// banks have their own), starting from 0.
func (e Engine) Pulses() []float64 {
	var out []float64
	angles := e.firingAngles()
	for i, c := range e.firingOrder() {
		if e.bankOf(c) == 0 {
			out = append(out, math.Mod(angles[i], e.period()))
		}
	}
	sort.Float64s(out)
	for i := len(out) - 1; i >= 0; i-- {
		out[i] -= out[0]
	}
	return out
}

// PipeFiring is the rate at which pulses enter one exhaust pipe at a speed in rpm, Hz:
// N n/120 for four-strokes, N n/60 for two-strokes, with N the cylinders on that pipe.
func (e Engine) PipeFiring(speed float64) PipeFiring {
	return PipeFiring(float64(len(e.Pulses())) * e.cyclesPerSecond(speed))
}

// EngineFiring is the rate at which all its cylinders fire at a speed in rpm, Hz.
func (e Engine) EngineFiring(speed float64) EngineFiring {
	return EngineFiring(float64(e.Cylinders) * e.cyclesPerSecond(speed))
}

// CycleFrequency is the rate of one cylinder's cycle at a speed in rpm, Hz: half the crank's for a
// four-stroke, the crank's for a two-stroke.
func (e Engine) CycleFrequency(speed float64) float64 { return e.cyclesPerSecond(speed) }

// OrderStrength is one row of the pulse train's order table.
type OrderStrength struct{ Order, Strength float64 }

// OrderStrengths lists the pulse train's strength at each multiple of the cycle frequency up to a
// crank order, with the engine's scatter.
func (e Engine) OrderStrengths(upTo float64) []OrderStrength {
	step := 2 * math.Pi / e.period()
	pulses, scatter := e.Pulses(), e.scatter()
	var out []OrderStrength
	for k := 1; float64(k)*step <= upTo+1e-9; k++ {
		o := float64(k) * step
		out = append(out, OrderStrength{o, pulseTrain(pulses, o, scatter)})
	}
	return out
}

func (e Engine) firingNotes() (a []Assumption) {
	even := e.period() / float64(e.Cylinders)
	deg := 180 / math.Pi
	if len(e.FiringAngles) == 0 && e.Cylinders > 1 {
		if b, odd := e.unevenBank(); odd {
			a = append(a, *e.assume("firing", "uneven: second bank "+fmt0(math.Abs(math.Mod(b, 2*even))*deg)+"° after the first",
				"shared crankpins and the stated bank angle; split pins fire evenly", 1))
		} else {
			a = append(a, *e.assume("firing", "every "+fmt0(even*deg)+"°", "even firing (common practice)", 1))
		}
	}
	if e.pipes() > 1 && len(e.FiringOrder) == 0 {
		a = append(a, *e.assume("firing_order", intsText(e.firingOrder()), "a common order (common practice, no source)", 2))
	}
	if e.pipes() > 1 {
		a = append(a, *e.assume("cylinders on each pipe", e.pipesText(),
			"odd and even numbers for a vee, equal groups from the front for a row (common practice, no source); renumber the firing order if the maker numbers otherwise", 2))
	}
	if e.Scatter == nil && e.Cylinders > 1 {
		a = append(a, *e.assume("difference between cylinders", "10 % rms", "from memory 5 to 10 %, with unequal manifold branches", 1))
	}
	return a
}

// pipesText names the cylinders on each pipe.
func (e Engine) pipesText() string {
	on := make([][]int, e.pipes())
	for c := 1; c <= e.Cylinders; c++ {
		b := e.bankOf(c)
		on[b] = append(on[b], c)
	}
	text := intsText(on[0])
	for _, group := range on[1:] {
		text += " and " + intsText(group)
	}
	return text
}
