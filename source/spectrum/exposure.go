package spectrum

import (
	"fmt"
	"math"
)

// period is a level held for a time.
type period struct {
	Level float64 // dB(A)
	Hours float64 // h
}

// Exposure8h is the daily exposure level LEX,8h of one level for a number of hours, dB(A):
//
//	LEX,8h = L + 10 lg(T / 8 h)
//
// Source: ISO 1999; directive 2003/10/EC article 2. No time gives Silent.
func Exposure8h(level, hours float64) float64 {
	if !(hours > 0) {
		return Silent
	}
	return math.Max(level+10*math.Log10(hours/8), Silent)
}

// exposureLevel is the daily exposure level LEX,8h of several periods of one day, dB(A).
func exposureLevel(periods ...period) float64 {
	var e []float64
	for _, p := range periods {
		e = append(e, Exposure8h(p.Level, p.Hours))
	}
	return Sum(e...)
}

// HoursTo is how long a level may last a day until LEX,8h reaches a value, h, not more than 24:
//
//	T = 8 h x 10^((value - L)/10)
//
// Both levels are in dB(A).
func HoursTo(value, level float64) float64 { return math.Min(8*Power(value-level), 24) }

// Watches tells how the hours of a passage fall on one person in 24 h: on watch for watch hours,
// off for off hours, and so on.
type Watches struct {
	Passage float64 // h
	Watch   float64 // h on
	Off     float64 // h off
}

// Day is how many hours of the worst 24 h a person spends on watch and off, h. The first watch
// starts with the passage.
func (w Watches) Day() (on, off float64, err error) {
	if !(w.Passage > 0 && w.Watch > 0 && w.Off >= 0) || math.IsInf(w.Passage+w.Watch+w.Off, 0) {
		return 0, 0, fmt.Errorf("watches of %g h on and %g h off in a passage of %g h: give hours above zero", w.Watch, w.Off, w.Passage)
	}
	day, turn := math.Min(w.Passage, 24), w.Watch+w.Off
	whole := math.Floor(day / turn)
	on = whole*w.Watch + math.Min(day-whole*turn, w.Watch)
	return on, day - on, nil
}

// Exposure is LEX,8h and the 24 h mean of the worst day of a passage for one person who hears
// onWatch dB(A) on watch and offWatch dB(A) off it; the hours ashore count as silence.
func (w Watches) Exposure(onWatch, offWatch float64) (lex8h, leq24h float64, err error) {
	on, off, err := w.Day()
	if err != nil {
		return 0, 0, err
	}
	lex8h = exposureLevel(period{onWatch, on}, period{offWatch, off})
	return lex8h, lex8h - 10*math.Log10(3), nil
}
