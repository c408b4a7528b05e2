package wet

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/gas"
	"hushwake/source/spectrum"
)

// A 60 kW engine's wet hose: 0.09 kg/s, water ten times the gas, 45 C (values by an independent program).
func hose60() Flow {
	s := math.Pi / 4 * .102 * .102
	return NewFlow(1.1181*10.02*s, 1015*.1083*s, 1.1181, 1.8221e-5, .102)
}

func TestDropsOfAHose(t *testing.T) {
	f := hose60()
	near(t, "entrained", f.Entrained(), .089077, 1e-5)
	near(t, "size", f.DropSize(), 332.71e-6, .2e-6)
	for i, want := range [5]float64{203.89, 325.90, 420.79, 520.35, 667.73} {
		near(t, "class", Sizes(333e-6)[i]*1e6, want, .02)
	}
	total := 0.0
	for _, c := range f.Drops() {
		total += c.Loading
	}
	near(t, "loading", total, f.Entrained()*f.Water/f.Gas/.8, 1e-12)
	if d := NewFlow(.001, .1, 1.1, 2e-5, .1).Drops(); d != nil {
		t.Errorf("a trickle of gas carries %v", d)
	}
}

// Sound in drops of loading 1.08, five classes of a Sauter mean of 333 um and one size, dB/m (independent program).
func TestSprayOfFiveClasses(t *testing.T) {
	d := gas.Droplets{Gas: gas.State{Temperature: 318.11, Density: 1.1181, SoundSpeed: 356.71, Gamma: 1.3812, Cp: 1049.2, Viscosity: 1.8221e-5, Conductivity: .027725,
		Pressure: 1.1181 * 356.71 * 356.71 / 1.3812}, Density: 1015, Heat: WaterHeat, Vapour: .0572, DryMass: 29.79}
	five, err := gas.NewSpray(d, classes(1.08, 333e-6))
	if err != nil {
		t.Fatal(err)
	}
	one, _ := gas.NewSpray(d, []gas.Class{{Loading: 1.08, Diameter: 333e-6}})
	split, _ := gas.NewSpray(d, []gas.Class{{Loading: .08, Diameter: 333e-6}, {Loading: .7, Diameter: 333e-6}, {Loading: .3, Diameter: 333e-6}})
	for _, r := range []struct{ hz, five, one float64 }{{125, .09859, .10243}, {1000, .17395, .18450}, {8000, .38609, .41581}} {
		w := 2 * math.Pi * r.hz
		near(t, "five", decay(five, w), r.five, .002*r.five)
		near(t, "one", decay(one, w), r.one, .002*r.one)
		near(t, "split", decay(split, w), decay(one, w), 1e-12)
	}
}

// decay is the attenuation of a spray in dB/m at 356.71 m/s.
func decay(s *gas.Spray, w float64) float64 {
	drag, kappa := s.At(w)
	n := (1 + drag) * kappa
	return 8.6859 * w / 356.71 * math.Sqrt((math.Hypot(real(n), imag(n))-real(n))/2)
}

func TestPlug(t *testing.T) {
	f := hose60()
	near(t, "mass", f.PlugMass(), 134.6, .1)
	for i, want := range [3]float64{30.48, 36.50, 42.45} {
		near(t, "plug", plugLoss(134.6, 1.1181*356.71, [3]float64{31.5, 63, 125}[i]), want, .03)
	}
	near(t, "share", f.Plugged(.9), .09, .01)
	for i, v := range f.PlugLoss(.9, 398.8) {
		near(t, "loss", v, -10*math.Log10(1-f.Plugged(.9)), .03)
		if i > 0 && v < f.PlugLoss(.9, 398.8)[i-1] {
			t.Error("a heavier plug lets more through")
		}
	}
	dry := f
	dry.Water = 0
	near(t, "no water", dry.Plugged(.9), 0, 0)
	fast := NewFlow(3*f.Gas, f.Water, f.GasDensity, f.GasViscosity, f.Bore)
	near(t, "an open core", fast.Plugged(.9), 0, 0)
}

func TestHoseWallOfOneStiffness(t *testing.T) {
	tube := Tube{Bore: .102, Wall: .007, Length: 3}
	near(t, "stiffness", tube.Stiffness(60e6), 1.41402e8, 1e3)
	near(t, "ring", tube.Ring(), 667.04, .05)
	const rho, c = 1.1181, 356.71
	k := tube.Stiffness(60e6)
	for _, r := range []struct{ hz, db float64 }{{100, .05949}, {500, 1.25516}, {667.04, 10.01848}, {1000, .38414}} {
		w := 2 * math.Pi * r.hz
		bare := 1 / (complex(k*hoseDamping/w, w*8.05-k/w))
		near(t, "decay", 8.6859*tube.Decay(w, rho, c, bare), r.db, 2e-4*r.db)
	}
	// Korteweg-Moens at low frequency: 349.874 m/s.
	stiff := 1 / complex(0, -k)
	n := 1 + 4*rho*c*c/.102*real(stiff/1i)
	near(t, "speed", c/math.Sqrt(n), 349.874, .01)
}

// The energy mean over the doubt of 3 m of 102 mm hose of 7 mm wall (independent program; 0.1 % allowed after 0.06 %
// was seen: how it lays its 24 points in an octave is not known).
func TestHoseWallInOctaves(t *testing.T) {
	var w, halves, none WallTake
	w.Add(Tube{Bore: .102, Wall: .007, Length: 3}, 1.1181, 356.71)
	loss, sd := w.Loss()
	for i, want := range (spectrum.Bands{.0851, .1775, .4230, 1.3692, 3.5624, 2.1761, .3266, .0218, .0021}) {
		near(t, "wall", loss[i], want, 1e-3*want+2e-4)
	}
	for i, want := range (spectrum.Bands{.1, .2, 1.0, 2.6, 2.1, 1.4, .5, .1, 0}) {
		near(t, "doubt", sd[i], want, .15)
	}
	halves.Add(Tube{Bore: .102, Wall: .007, Length: 1.5}, 1.1181, 356.71)
	halves.Add(Tube{Bore: .102, Wall: .007, Length: 1.5}, 1.1181, 356.71)
	both, _ := halves.Loss()
	near(t, "two halves", both[4], loss[4], 1e-12)
	none.Add(Tube{Bore: .102, Wall: .007}, 1.1181, 356.71)
	zero, _ := none.Loss()
	near(t, "no length", zero.Total(), 10*math.Log10(spectrum.N), 1e-12)
	past, last := 0.0, math.Inf(1)
	for _, l := range []float64{1, 2, 4, 8} {
		var w WallTake
		w.Add(Tube{Bore: .102, Wall: .006, Length: l}, 1.1181, 356.71)
		b, _ := w.Loss()
		if !(b[4] > past) || !(b[4]/l < last) {
			t.Errorf("%g m take %g dB", l, b[4])
		}
		past, last = b[4], b[4]/l
	}
}

// A wall that does not give takes and gives off next to nothing; a soft one gives off more than a hard one at low
// frequency. Above the band of stiffnesses the kinds are told apart by their ring.
func TestHoseKinds(t *testing.T) {
	soft, hard := Tube{Bore: .102, Wall: .006, Length: 3, Kind: HoseSoft}, Tube{Bore: .102, Wall: .006, Length: 3, Kind: HoseHard}
	if !(soft.Ring() < hard.Ring()) {
		t.Error("a soft hose rings higher")
	}
	if !(soft.BreakOut()[3] < hard.BreakOut()[3]-2) {
		t.Error("a soft hose holds more back at 250 Hz")
	}
	near(t, "one stiffness", math.Abs(imag(1/soft.admittance(1, 1e15)))/1e15, soft.Stiffness(1), .01*soft.Stiffness(1))
	rigid := soft.admittance(2*math.Pi*500, 1e14)
	near(t, "rigid", soft.Decay(2*math.Pi*500, 1.1181, 356.71, rigid), 0, 1e-6)
	for _, bad := range []Tube{{}, {Bore: .1, Wall: .2, Length: 1}, {Bore: .1, Wall: .006, Length: math.NaN()}} {
		if bad.Check() == nil {
			t.Errorf("accepted %+v", bad)
		}
	}
}

func TestMouth(t *testing.T) {
	m := Mouth{Bore: .102, Gas: .0819, GasDensity: 1.1181, Mach: .028}
	near(t, "bubble", m.Bubble(), .3015, 1e-4)
	near(t, "small bubble", Mouth{Gas: .011}.Bubble(), .14, .005)
	near(t, "gas to water", PlaneStep(1.1181*356.71, 1015*1500), -10*math.Log10(4*1.1181*356.71*1015*1500/math.Pow(1.1181*356.71+1015*1500, 2)), 1e-9)
	near(t, "here", PlaneStep(1.1181*356.71, 1.53e6), 29.84, .03)
	near(t, "air", PlaneStep(413.3, 1.48e6), 29.52, .02)
	near(t, "held open", m.held(), .27, .03)
	half, _ := m.through(0, m.held(), m.Bubble())
	near(t, "half covered", -10*math.Log10(half), .9, .1)
	just, _ := m.through(.051, m.held(), m.Bubble())
	near(t, "just covered", -10*math.Log10(just), 3, .5)
	for _, at := range []float64{m.Bore / 2, m.Bore/2 + m.Bubble()} { // no step
		a, _ := m.through(at-1e-9, m.held(), m.Bubble())
		b, _ := m.through(at+1e-9, m.held(), m.Bubble())
		near(t, "continuous", a, b, 1e-6)
	}
	m.Waves = UsualWaves
	db, sd, _ := m.Loss()
	near(t, "awash", db, 1.2, .2)
	near(t, "awash doubt", sd, 1.5, .3)
	m.Depth = .9
	db, sd, _ = m.Loss()
	near(t, "deep", db, 20, .01)
	near(t, "deep doubt", sd, 6, .01)
	m.Depth = -1
	db, sd, _ = m.Loss()
	near(t, "high and dry", db, 0, 1e-12)
	near(t, "sure", sd, 0, 1e-12)
	for _, bad := range []Mouth{{}, {Bore: .1, GasDensity: 1, Waves: -1}, {Bore: .1, GasDensity: 1, Depth: math.NaN()}} {
		if bad.Check() == nil {
			t.Errorf("accepted %+v", bad)
		}
	}
}

// From well above the water to well below it the loss never falls, never steps by more than 0.7 dB in 5 mm
// (gas of 4 m/s or more in bores to 200 mm; slower gas makes small bubbles that shut sooner, 0.71 dB seen).
func TestMouthOverDepth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bore := rapid.Float64Range(.04, .2).Draw(t, "bore")
		u := rapid.Float64Range(4, 30).Draw(t, "speed")
		m := Mouth{Bore: bore, Gas: u * area(bore), GasDensity: 1.1, Mach: u / 357, Waves: UsualWaves}
		past := 0.0
		for i := -30; i <= 120; i++ {
			m.Depth = float64(i) * .005
			db, _, _ := m.Loss()
			if db < past-1e-9 || i > -30 && db-past > .7 {
				t.Fatalf("%.0f mm: %g dB after %g", 1e3*m.Depth, db, past)
			}
			past = db
		}
	})
}

// What the spray costs in pressure goes with water and gas velocity, and its resistance with the water alone.
func TestSprayLoss(t *testing.T) {
	dp := SprayLoss(.9, 22.6, .102)
	near(t, "60 kW", dp, .5*.9*.3*22.6/area(.102), 1e-9)
	if dp < 100 || dp > 500 {
		t.Errorf("%g Pa", dp)
	}
	near(t, "resistance", SprayResistance(dp, 22.6), 2*.5*.9*.3/(.85*area(.102)), 1e-9)
	near(t, "no gas", SprayResistance(0, 0), 0, 0)
	f := hose60()
	drops, cut := f.Spray()
	total := 0.0
	for _, c := range drops {
		total += c.Loading
	}
	near(t, "loading", total, .5*f.Water/f.Gas/.6, 1e-9)
	if cut {
		t.Error("cut short")
	}
	f.Water *= 20
	if _, cut = f.Spray(); !cut {
		t.Error("more than the theory holds for passed in silence")
	}
}
