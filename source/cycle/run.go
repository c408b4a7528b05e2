package cycle

import (
	"errors"
	"fmt"
	"math"
)

// Steps of crank angle, degrees.
const (
	FineStep   = 1.0
	CoarseStep = 2.0
)

// Parts of the integrated vector: mass and internal energy, then what crossed the boundary.
const (
	mass    = iota // kg in the cylinder
	energy         // J
	out            // kg net through the exhaust
	in             // kg net through the intake
	burn           // kg of fuel
	heatOut        // J of enthalpy through the exhaust
	heatIn         // J of enthalpy through the intake
	work           // J on the piston
	wall           // J to the walls
	width
)

type balance [width]float64

// solver carries one run; nothing is allocated per step.
type solver struct {
	cyl               Cylinder
	run               Running
	omega             float64 // rad/s
	fuel              float64 // kg per cycle
	burning           float64 // share of the fuel that finds air
	box, boxTemp      float64 // Pa, K, before the intake
	boxOff, stride    float64 // how far the box was off last, how boldly it is moved
	lineTemp          float64 // K, gas that may flow back
	line, charge      space   // in this cycle
	crank             []span
	refP, refV, refT  float64 // state when the cylinder is sealed, for the heat transfer's motored pressure
	pistonSpeed       float64
	bore02            float64
	pressure          float64 // of the last evaluation
	temperature, flow float64
}

// errUnsettled says that the cycle did not become periodic.
var errUnsettled = errors.New("cycle did not become periodic")

// Run takes the cylinder through cycles with the given crank step in degrees until one repeats.
func Run(c Cylinder, r Running, stepDegrees float64) (*Result, error) {
	if err := c.Check(); err != nil {
		return nil, err
	}
	if err := r.check(); err != nil {
		return nil, err
	}
	if !(stepDegrees >= 0.05 && stepDegrees <= 4) {
		return nil, fmt.Errorf("crank step of %g deg; the model takes 0.05 to 4", stepDegrees)
	}
	n := int(math.Round(c.Period() * 180 / math.Pi / stepDegrees))
	res := &Result{Theta: make([]float64, n), MassFlow: make([]float64, n), VolumeVelocity: make([]float64, n), Pressure: make([]float64, n)}
	s := newSolver(c, r)
	s.crank = crankOf(c, n)
	return res, s.settle(res)
}

func newSolver(c Cylinder, r Running) *solver {
	s := &solver{cyl: c, run: r, omega: r.Speed * math.Pi / 30, box: r.IntakePressure, boxTemp: r.IntakeTemperature, lineTemp: 800, burning: 1, stride: 1}
	s.pistonSpeed = 2 * c.Stroke * r.Speed / 60
	s.bore02 = math.Pow(c.Bore, -0.2)
	s.refP, s.refT, s.refV = r.IntakePressure, 350, c.Volume(s.sealed())
	return s
}

// settle repeats cycles from exhaust opening to exhaust opening.
func (s *solver) settle(res *Result) error {
	v := s.cyl.Volume(s.cyl.Exhaust.Opens)
	air := s.box * s.cyl.Swept() / (gasConstant * s.boxTemp)
	s.setFuel(air, air)
	p, t := 4*s.box, 1200.0
	var y balance
	y[mass] = p * v / (gasConstant * t)
	y[energy] = y[mass] * energyAt(t)
	const most = 120
	for k := 1; k <= most; k++ {
		start := y
		s.cycle(&y, res)
		dm, du := (y[mass]-start[mass])/y[out], (y[energy]-start[energy])/(y[burn]*s.run.Fuel.HeatingValue)
		moved := s.adjust(&y)
		if math.IsNaN(dm) || math.IsNaN(du) {
			break
		}
		if k > 2 && math.Abs(dm) < 2e-7 && math.Abs(du) < 1e-6 && moved < 1e-6 {
			s.finish(&start, &y, res)
			return nil
		}
		for i := out; i < width; i++ {
			y[i] = 0
		}
	}
	return fmt.Errorf("%w in %d cycles at %g rpm", errUnsettled, most, s.run.Speed)
}

// adjust sets fuel, line temperature and air box for the next cycle; moved is how far it all was off.
func (s *solver) adjust(y *balance) (moved float64) {
	before := s.fuel
	s.setFuel(y[in], y[in])
	moved = math.Abs(s.fuel/before - 1)
	if t := s.meanOutTemperature(y); t > 250 && t < 3000 {
		moved = math.Max(moved, math.Abs(t-s.lineTemp)/t*0.01)
		s.lineTemp = t
	}
	if s.run.Blower != nil {
		moved = math.Max(moved, s.adjustBox(y))
	}
	return moved
}

// adjustBox moves the air box towards the pressure at which the ports take what the blower delivers.
// Its stride shrinks when it overshoots: at low speed the flow follows the pressure steeply.
func (s *solver) adjustBox(y *balance) (moved float64) {
	b := s.run.Blower
	due := b.mass(s.box-b.Ambient, s.run.IntakeTemperature, s.cyl.Period()/s.omega)
	off := (due - y[in]) / due
	if off*s.boxOff < 0 {
		s.stride = math.Max(s.stride/2, 0.01)
	} else {
		s.stride = math.Min(s.stride*1.2, 1.5)
	}
	s.boxOff = off
	rise := math.Max(math.Abs(s.box-s.run.ExhaustPressure), 200)
	s.box += s.stride * math.Max(math.Min(off, 0.4), -0.3) * rise
	s.boxTemp = b.heated(s.box, s.run.IntakeTemperature)
	return math.Abs(off)
}

func (s *solver) meanOutTemperature(y *balance) float64 {
	h := y[heatOut] / y[out]
	t := 300 + h/1150
	for range 4 { // enthalpyAt is nearly straight: Newton with cp
		g := gammaAt(t)
		t -= (enthalpyAt(t) - h) * (g - 1) / (g * gasConstant)
	}
	return t
}

// setFuel fixes fuel and the share of it that finds air to burn.
func (s *solver) setFuel(air, trapped float64) {
	s.fuel = s.run.FuelMass
	if s.fuel == 0 {
		s.fuel = math.Max(air, 0.05*s.cyl.Swept()) / s.run.AirFuelRatio
	}
	s.burning = math.Min(1, trapped/(s.fuel*s.run.Fuel.Stoichiometric))
	s.burning = math.Max(s.burning, 0.1)
}

// cycle integrates one cycle and records it.
func (s *solver) cycle(y *balance, res *Result) {
	s.line, s.charge = spaceAt(s.run.ExhaustPressure, s.lineTemp), spaceAt(s.box, s.boxTemp)
	n := len(res.Theta)
	h := s.cyl.Period() / float64(n)
	var d balance
	res.PeakPressure = 0
	for i := range n {
		theta := s.cyl.Exhaust.Opens + float64(i)*h
		at := &s.crank[i]
		s.rates(&at[0], y, &d)
		res.Theta[i], res.MassFlow[i], res.Pressure[i] = theta, s.flow, s.pressure
		res.VolumeVelocity[i] = d[heatOut] * s.omega / s.enthalpyPerVolume()
		res.PeakPressure = math.Max(res.PeakPressure, s.pressure)
		if s.closing(theta, h) {
			s.refP, s.refV, s.refT = s.pressure, at[0].volume, s.temperature
		}
		if parts := s.substeps(h, &at[0]); parts > 1 {
			s.finer(theta, h/float64(parts), parts, y, &d)
		} else {
			s.step(h, at, y, &d)
		}
	}
}

// finer takes a step in parts of size h from where the rates are d.
func (s *solver) finer(theta, h float64, parts int, y, d *balance) {
	for j := range parts {
		at := s.cyl.span(theta+float64(j)*h, h)
		if j > 0 {
			s.rates(&at[0], y, d)
		}
		s.step(h, &at, y, d)
	}
}

// enthalpyPerVolume turns an enthalpy flow into a volume velocity at line pressure, J/m3: a gas of
// volume V holds V p g/(g-1) of enthalpy. The gas is the cylinder's on its way out, the line's on its
// way back; both use the same reference so that the flow of h balances with sensible heat from 0 K.
func (s *solver) enthalpyPerVolume() float64 {
	t := s.temperature
	if s.flow < 0 {
		t = s.lineTemp
	}
	return s.run.ExhaustPressure * enthalpyAt(t) / (gasConstant * t)
}

// sealed is the crank angle at which compression begins: the intake closes, or after it the exhaust of
// a uniflow two-stroke.
func (s *solver) sealed() float64 {
	if s.cyl.TwoStroke {
		return math.Max(s.cyl.Intake.Closes, s.cyl.Exhaust.Closes)
	}
	return s.cyl.Intake.Closes
}

// closing tells whether the cylinder is sealed within this step.
func (s *solver) closing(theta, h float64) bool {
	return since(s.sealed()-theta, s.cyl.Period()) < h
}

// substeps keeps the explicit step stable: flow through an area A empties a volume V at a rate of at
// most g sqrt(R T) A/V sqrt(2/linear).
func (s *solver) substeps(h float64, at *station) int {
	rate := 1.35 * math.Sqrt(gasConstant*s.temperature) * (at.exhaust + at.intake) / at.volume * math.Sqrt(2/linear)
	return min(max(int(math.Ceil(rate*h/s.omega/2)), 1), 24)
}

// step is one classical Runge-Kutta step of size h in rad from where the rates are k1.
func (s *solver) step(h float64, at *span, y, k1 *balance) {
	var k2, k3, k4, t balance
	for i := range y {
		t[i] = y[i] + h/2*k1[i]
	}
	s.rates(&at[1], &t, &k2)
	for i := range y {
		t[i] = y[i] + h/2*k2[i]
	}
	s.rates(&at[1], &t, &k3)
	for i := range y {
		t[i] = y[i] + h*k3[i]
	}
	s.rates(&at[2], &t, &k4)
	for i := range y {
		y[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
	}
}
