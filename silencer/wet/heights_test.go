package wet

import (
	"math"
	"testing"
)

const degree = math.Pi / 180

func at(height, off, heel float64) Point {
	return Point{Height: height, Stated: true, OffCentre: off, Heel: heel * degree}
}

func TestHeeledHeight(t *testing.T) {
	near(t, "upright", Heeled(.4, 1, 0), .4, 0)
	near(t, "20 degrees", Heeled(.4, 1, 20*degree), .4*math.Cos(20*degree)-math.Sin(20*degree), 1e-12)
	near(t, "either side", Heeled(.4, -1, .2), Heeled(.4, 1, .2), 0)
}

func TestInjectionHeight(t *testing.T) {
	none(t, "high enough", at(.35, 0, 20).Injection(false))
	wants(t, at(.25, 0, 0).Injection(false), "INJECTION-LOW", Warning, false)
	wants(t, at(.15, 0, 0).Injection(false), "INJECTION-SIPHONS", Danger, true)
	wants(t, at(-.1, 0, 0).Injection(false), "INJECTION-SIPHONS", Danger, true)
	wants(t, at(.35, 1, 20).Injection(false), "INJECTION-SIPHONS", Danger, true) // drops by y sin(heel)
	none(t, "loop", at(.25, 0, 0).Injection(true))
	wants(t, at(.1, 0, 0).Injection(true), "INJECTION-LOW", Note, false)
	wants(t, Point{}.Injection(false), "INJECTION-HEIGHT-UNKNOWN", Caution, false)
}

func TestLoopAndRiserTop(t *testing.T) {
	none(t, "loop", at(.5, .1, 20).Loop())
	wants(t, at(.4, 0, 0).Loop(), "LOOP-LOW", Warning, false)
	wants(t, at(.5, 1, 20).Loop(), "LOOP-LOW", Warning, false) // 128 mm heeled, 203 wanted
	wants(t, at(.5, 2, 20).Loop(), "LOOP-UNDER-WATER", Danger, true)
	wants(t, Point{}.Loop(), "LOOP-HEIGHT-UNKNOWN", Caution, false)
	none(t, "riser", at(.6, .3, 20).RiserTop())
	wants(t, at(.3, 0, 0).RiserTop(), "RISER-TOP-LOW", Warning, false)
	wants(t, at(.3, 1.5, 20).RiserTop(), "RISER-TOP-UNDER-WATER", Danger, true)
}

func TestSlopesAndDrops(t *testing.T) {
	none(t, "falls enough", HoseSlope(-.15, 3.5))
	wants(t, HoseSlope(-.05, 3.5), "HOSE-FLAT", Caution, false)
	wants(t, HoseSlope(.2, 3.5), "HOSE-FLAT", Caution, false)
	none(t, "no hose", HoseSlope(0, 0))
	near(t, "1/2 in per ft", hoseFall, .5/12, 1e-4)
	none(t, "drop", ChamberDropFindings(.31))
	wants(t, ChamberDropFindings(.2), "CHAMBER-HIGH", Warning, false)
}

func TestHoseHeat(t *testing.T) {
	cool := Hose{Rating: hoseEPDM, Gas: 328, DryGas: 760, Velocity: 15, Injected: true}
	wants(t, cool.Findings(), "WATER-STOPS", Warning, false)
	none(t, "stands dry gas too", Hose{Rating: 800, Gas: 328, DryGas: 760, Injected: true}.Findings())
	wants(t, Hose{Rating: hoseEPDM, Gas: 500}.Findings(), "HOSE-TOO-HOT", Danger, true)
	wants(t, Hose{Gas: 500}.Findings(), "HOSE-TOO-HOT", Danger, true)
	wants(t, Hose{Gas: 328}.Findings(), "HOSE-RATING-UNKNOWN", Caution, false)
	wants(t, Hose{Gas: 328, DryGas: 760, Injected: true}.Findings(), "WATER-STOPS", Warning, false)
	wants(t, Hose{Rating: hoseEPDM, Gas: 328, Velocity: 45}.Findings(), "HOSE-FAST", Caution, false)
}

func TestRawWater(t *testing.T) {
	const perMinute = 1e-3 / 60
	none(t, "1 L/min per kW", RawWater(33*perMinute, 33e3))
	none(t, "read figures", RawWater(67*perMinute, 74.6e3))
	wants(t, RawWater(5*perMinute, 33e3), "RAW-WATER-LOW", Warning, false)
	wants(t, RawWater(200*perMinute, 33e3), "RAW-WATER-HIGH", Warning, false)
	wants(t, RawWater(0, 33e3), "RAW-WATER-NONE", Danger, false)
	none(t, "no power known", RawWater(1, 0))
}

func TestSeparator(t *testing.T) {
	s := Separator{Bore: .3, Height: .6, DrainBore: .076}
	none(t, "roomy", s.Findings(.05, 1.05, 5.5e-4))
	wants(t, s.Findings(.3, 1.05, 5.5e-4), "SEPARATOR-CARRIES-OVER", Caution, false)
	wants(t, s.Findings(.05, 1.05, 20e-3), "SEPARATOR-DRAIN-SMALL", Danger, true)
	near(t, "no gas", soudersBrown(0, 1000), 0, 0)
}
