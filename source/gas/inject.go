package gas

import (
	"errors"
	"fmt"

	"hushwake/source/published"
)

// Constants of the injection heat balance, from memory.
const (
	seaWaterActivity = 0.981    // vapour pressure of sea water over that of pure water
	seaWaterHeat     = 3990.0   // J/(kg K)
	freshWaterHeat   = 4186.0   // J/(kg K)
	latentZero       = 2500.9e3 // J/kg, heat of evaporation at 0 C
	steamHeat        = 1860.0   // J/(kg K)
	// SeaWaterDensity is that of the cold raw water, kg/m3.
	SeaWaterDensity = 1025.0
)

// Injection is water meeting gas.
type Injection struct {
	Gas              Gas
	GasFlow          float64 // kg/s
	GasTemperature   float64 // K
	Pressure         float64 // Pa, absolute
	WaterFlow        float64 // kg/s
	WaterTemperature float64 // K
	Fresh            bool    // fresh water instead of sea water
}

// Injected is the gas after the water has met it, in thermal equilibrium.
type Injected struct {
	Gas         Gas     // with its vapour
	Temperature float64 // K, of gas and remaining water
	Evaporated  float64 // kg/s; negative when vapour of the gas condensed
	Saturated   bool    // gas leaves saturated; false = all water evaporated (dry-out)
	GasFlow     float64 // kg/s with vapour
	WaterFlow   float64 // kg/s of liquid left
	Density     float64 // kg/m3 of the gas
	VolumeFlow  float64 // m3/s of the gas
	Imbalance   float64 // W that gas gives up less what water takes
	HeatGiven   float64 // W given up by the gas
	published.Cited
}

// Check says whether the balance can be made.
func (in Injection) Check() error {
	if err := in.Gas.Check(in.GasTemperature, in.Pressure); err != nil {
		return err
	}
	switch {
	case in.Gas.Kind == Stated:
		return errors.New("a stated medium has no heat balance: water injection needs exhaust gas or air")
	case !(in.GasFlow > 0):
		return fmt.Errorf("water injection needs a gas flow above 0, got %.3g kg/s", in.GasFlow)
	case !(in.WaterFlow >= 0 && in.WaterFlow <= 1e4*in.GasFlow):
		return fmt.Errorf("injected water %.3g kg/s lies outside the heat balance (0 to 10 000 times the gas flow)", in.WaterFlow)
	case !(in.WaterTemperature >= 270 && in.WaterTemperature < 373):
		return fmt.Errorf("injected water at %.4g K lies outside the heat balance (270 to 373 K)", in.WaterTemperature)
	case !(in.Pressure >= 5e4):
		return fmt.Errorf("injection at %.4g Pa lies outside the heat balance (0.5 to 20 bar)", in.Pressure)
	}
	return nil
}

// Inject makes the heat balance of water injection with evaporation: gas and water leave at one
// temperature t (C), the gas saturated as long as there is water left,
//
//	sum n_i [h_i(t_g) - h_i(t)] = m_ev (2500.9 + 1.86 t - 4.186 t_w) + (m_w - m_ev) 3.99 (t - t_w)   kJ, kg
//	m_ev = min(m_w, M_w (n_dry x/(1-x) - n_v)),   x = a_w p_s(t)/p
//
// The result is the equilibrium bound; just behind the injection gas streaks are hotter. The constant heat of steam
// makes a dry-out above 400 C up to 2 K too warm. More water lowers the outlet as long as the water is
// cooler than the outlet.
func Inject(in Injection) (Injected, error) {
	if err := in.Check(); err != nil {
		return Injected{}, err
	}
	b := newBalance(in)
	low, high := 263.15, max(in.GasTemperature, in.WaterTemperature)+1e-9
	if b.surplus(low) < 0 {
		return Injected{}, errors.New("water injection: the gas is too cold and dry, the water would freeze")
	}
	t := in.GasTemperature
	if in.WaterFlow > 0 {
		t = bisect(b.surplus, low, high)
	}
	return b.result(t), nil
}

// balance holds the molar flows of an injection.
type balance struct {
	Injection
	flow     [speciesCount]float64 // kmol/s
	dry      float64               // kmol/s without vapour
	given    float64               // W above the reference at the gas temperature
	heat     float64               // J/(kg K) of the liquid
	activity float64
}

func newBalance(in Injection) *balance {
	b := &balance{Injection: in, heat: seaWaterHeat, activity: seaWaterActivity}
	if in.Fresh {
		b.heat, b.activity = freshWaterHeat, 1
	}
	x := in.Gas.Fractions()
	total := in.GasFlow / meanMass(&x)
	for i := range x {
		b.flow[i] = x[i] * total
		b.given += b.flow[i] * pure[i].enthalpy(in.GasTemperature)
	}
	b.dry = total - b.flow[water]
	return b
}

// evaporated is the water taken up at a temperature, kg/s.
func (b *balance) evaporated(t float64) float64 {
	x := b.activity * saturationPressure(t) / b.Pressure
	if x >= 1 {
		return b.WaterFlow
	}
	return min(b.WaterFlow, pure[water].mass*(b.dry*x/(1-x)-b.flow[water]))
}

// released is the heat the gas gives up on its way to a temperature, W.
func (b *balance) released(t float64) float64 {
	h := b.given
	for i := range b.flow {
		h -= b.flow[i] * pure[i].enthalpy(t)
	}
	return h
}

// surplus is the heat the gas gives up less what the water takes, W; it falls with t.
func (b *balance) surplus(t float64) float64 {
	ev := b.evaporated(t)
	tw := b.WaterTemperature - ZeroC
	vapour := latentZero + steamHeat*(t-ZeroC) - freshWaterHeat*tw
	return b.released(t) - ev*vapour - (b.WaterFlow-ev)*b.heat*(t-b.WaterTemperature)
}

func (b *balance) result(t float64) Injected {
	ev := b.evaporated(t)
	if b.WaterFlow == 0 {
		ev = 0
	}
	out := Injected{Temperature: t, Evaporated: ev, Saturated: ev < b.WaterFlow,
		GasFlow: b.GasFlow + ev, WaterFlow: b.WaterFlow - ev, Imbalance: b.surplus(t), HeatGiven: b.released(t),
		Gas:   b.Gas.Moist(ev / b.GasFlow * (1 + b.Gas.Vapour)),
		Cited: published.By("sum n [h(tg) - h(t)] = m_ev (2500.9 + 1.86 t - 4.186 tw) + (mw - m_ev) 3.99 (t - tw), gas saturated at t", "heat balance from first principles; vapour pressure by Wagner and Pruss 1993", "derived")}
	n := b.dry + b.flow[water] + ev/pure[water].mass
	out.VolumeFlow = n * universal * t / b.Pressure
	out.Density = out.GasFlow / out.VolumeFlow
	return out
}
