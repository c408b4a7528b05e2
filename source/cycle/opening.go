package cycle

import "math"

// Opening is a set of equal poppet valves, or a row of ports that the piston uncovers.
type Opening struct {
	Opens, Closes float64 // rad after firing top dead centre
	Count         int     // valves
	Diameter      float64 // m, valve head
	Lift          float64 // m, greatest valve lift
	PortWidth     float64 // m of circumference taken by ports; above 0 it is a port, not a valve
	Discharge     float64 // flow coefficient
}

// open tells how far into the opening a crank angle lies, 0 to 1; false when closed.
func (o *Opening) open(theta, period float64) (x float64, ok bool) {
	d := since(theta-o.Opens, period)
	span := o.Closes - o.Opens
	return d / span, d < span
}

// since is an angle within its period, from 0 up: a remainder, most often without a division.
func since(angle, period float64) float64 {
	switch {
	case angle >= 2*period || angle <= -period:
		angle = math.Mod(angle, period)
	case angle >= period:
		angle -= period // exact
	}
	if angle < 0 {
		angle += period
	}
	return angle
}

// valveArea is the geometric area in m2 at a fraction x of the opening time,
//
//	A = n min(pi d L, 0.8 pi d^2/4) ,  L = Lmax (1 - |2x-1|^3)^2
//
// a flat-topped smooth lift (judgement); curtain and seat areas as in Heywood (1988) ch. 6, from memory.
func (o *Opening) valveArea(x float64) float64 {
	u := math.Abs(2*x - 1)
	s := 1 - u*u*u
	curtain := math.Pi * o.Diameter * o.Lift * s * s
	return float64(o.Count) * math.Min(curtain, 0.2*math.Pi*o.Diameter*o.Diameter)
}

// linear is the pressure ratio below one within which flow is taken as proportional to the pressure
// difference: orifice flow has an infinite slope at rest, which no step size follows.
const linear = 0.005

// orificeFlow is the mass flow in kg/s from p1, t1 to p2 <= p1 through an effective area in m2,
//
//	m = A p1/sqrt(R T1) sqrt( 2g/(g-1) (r^(2/g) - r^((g+1)/g)) ) ,  r = max(p2/p1, r_crit)
//
// with r_crit = (2/(g+1))^(g/(g-1)), choked below it. Source: Heywood (1988) app. C, from memory.
func orificeFlow(area, p1, t1, p2, g float64) float64 {
	r := p2 / p1
	scale := area * p1 / math.Sqrt(gasConstant*t1)
	switch {
	case r > 1-linear:
		return scale * subcritical(1-linear, logLinear, g) * (1 - r) / linear
	case r < 0.6 && r < criticalRatio(g): // 0.6 lies above the critical ratio of any gas
		return scale * (math.Sqrt(g) * math.Pow(2/(g+1), (g+1)/(2*(g-1))))
	}
	return scale * subcritical(r, math.Log(r), g)
}

var logLinear = math.Log(1 - linear)

// subcritical takes the ratio of pressures and its logarithm.
func subcritical(r, log, g float64) float64 {
	a := math.Exp(log / g)
	return math.Sqrt(2 * g / (g - 1) * a * (a - r))
}

func criticalRatio(g float64) float64 { return math.Exp(g / (g - 1) * math.Log(2/(g+1))) }
