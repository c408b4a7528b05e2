package path

import (
	"math"
	"slices"

	"hushwake/source"
)

// Voyage is days at sea: how the engines run in one of them, and how a person's watches fall.
type Voyage struct {
	Name      string
	Days      float64
	Times     float64 // a year; 0 = not stated
	FuelPrice float64 // per m3; 0 = not stated
	Legs      []Leg   // of a day; none = by a test cycle
	Watch     Watch
}

// Leg is a duty that engines keep for some hours of a day.
type Leg struct {
	Engines []string // nil = those that drive a propeller
	Speed   float64  // rpm; 0 = the running duty
	Power   float64  // W; 0 = by the load law
	Hours   float64  // h of each day
	Over    float64  // m/s over ground; 0 = not stated
}

// Watch is who is where: on watch at one place, off at another; On 0 = nobody keeps one.
type Watch struct {
	On, Off  float64 // h
	At, Rest string  // names of listeners; "" = the first, the first cabin
}

// Propeller is what an engine drives, as far as its lines are asked for.
type Propeller struct {
	Blades int     // 0 = not stated
	Gear   float64 // turns of the engine for one of the shaft; 0 = not stated
}

// Lines are the turns of the shaft and the blades that pass at an engine speed in rpm, Hz; 0 where not stated.
func (p Propeller) Lines(rpm float64) (shaft, blade float64) {
	if p.Gear == 0 {
		return 0, 0
	}
	shaft = rpm / 60 / p.Gear
	return shaft, shaft * float64(p.Blades)
}

// On tells whether the engine runs on a leg; only by name does one that the file has stopped.
func (e *Engine) On(g Leg) bool {
	if len(g.Engines) == 0 {
		return !e.Stopped && e.LoadLaw() == source.Propeller
	}
	return slices.Contains(g.Engines, e.Name)
}

// RunAt puts an engine at a duty. What was measured at the running duty is moved to it by load and speed.
func (e *Engine) RunAt(d source.Duty) {
	was, _ := e.RunningDuty()
	if e.MeasuredAt == (source.Duty{}) && was != d && (e.ExhaustLevel != nil || e.CasingLevel != nil || e.FootVelocity != nil) {
		e.MeasuredAt = was
	}
	e.Running, e.Stopped = d, false
}

// DutyOn is the engine's duty on a leg: a set keeps the speed it is rated at.
func (e *Engine) DutyOn(g Leg) source.Duty {
	d, _ := e.RunningDuty()
	if g.Speed > 0 && g.Speed != d.Speed && e.LoadLaw() != source.ConstantSpeed {
		d = e.DutyThrough(g.Speed)
	}
	if g.Power > 0 {
		d.Power = math.Min(g.Power, e.Rated.Power)
	}
	return d
}
