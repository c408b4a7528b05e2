package report

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/report/form"
	"hushwake/path/study/passage"
)

// Floor is what no exhaust work takes out at a place.
type Floor struct {
	Listener string         `json:"listener"`
	LevelDBA form.Number    `json:"level_dba"`
	Text     string         `json:"text"`
	Layouts  []LayoutsFloor `json:"layouts"`
	Alike    [][]string     `json:"alike"`  // layouts that nobody tells apart there
	Masked   []string       `json:"masked"` // lines of an engine that the measured background covers
}

// LayoutsFloor is a layout's own floor there, and how much of each dB of silencing arrives.
type LayoutsFloor struct {
	Layout   string      `json:"layout"`
	FloorDBA form.Number `json:"floor_dba"`
	Share    form.Number `json:"share"`
}

// Beat is two engines whose lines swing.
type Beat struct {
	Engines   []string    `json:"engines"`
	Order     form.Number `json:"order"`
	Frequency form.Number `json:"frequency_hz"`
	Swing     form.Number `json:"swing_db"`
	Text      string      `json:"text"`
}

// mostRests is how many sources a floor names.
const mostRests = 3

// NewFloor is a floor as documents hold it.
func NewFloor(f passage.Floor) Floor {
	out := Floor{Listener: f.Place, LevelDBA: form.Level(f.Level), Text: form.Sentence("even a perfect silencer leaves " + floorWords(f)),
		Alike: form.List(f.Alike), Masked: form.List(MaskedWords(f.Masked))}
	out.Layouts = form.Each(f.Under, func(u passage.Under) LayoutsFloor {
		return LayoutsFloor{u.Layout, form.Level(u.Floor), form.Num(math.Round(1e3*u.Share) / 1e3)}
	})
	return out
}

// floorWords is "73 dB(A) at helm (main casing 71, background 64)", or the range of the layouts with what makes the lowest.
func floorWords(f passage.Floor) string {
	var rest []string
	for _, r := range f.Rest[:min(mostRests, len(f.Rest))] {
		text := r.Source + " " + form.Whole(r.Level)
		if r.Middle != nil {
			text += " by the mean and " + form.Whole(*r.Middle) + " in the middle of its doubt"
		}
		rest = append(rest, text)
	}
	made := strings.Join(rest, ", ")
	low, high := form.Whole(f.Level), form.Whole(f.Most)
	if low == high {
		return fmt.Sprintf("%s dB(A) at %s (%s)", low, f.Place, made)
	}
	return fmt.Sprintf("%s to %s dB(A) at %s (%s with %s: %s)", low, high, f.Place, low, form.Quote(f.Layout), made)
}

// MaskedWords names the orders of an engine that a measured background covers in a layout, the strongest first.
func MaskedWords(all []passage.Masked) (out []string) {
	at := map[string]int{}
	for _, m := range all {
		key := form.Quote(m.Layout) + ": of " + m.Engine
		if i, ok := at[key]; ok {
			out[i] += fmt.Sprintf(", %g (%.0f Hz)", m.Order, m.Frequency)
			continue
		}
		while := ""
		if m.When != "" {
			while = " while " + m.When
		}
		at[key] = len(out)
		out = append(out, fmt.Sprintf("with %s not heard%s: order %g (%.0f Hz)", key, while, m.Order, m.Frequency))
	}
	return out
}

// NewBeat is a beat of two engines as documents hold it.
func NewBeat(b passage.Beat) Beat {
	return Beat{b.Engines[:], form.Num(b.Order), form.Num(b.Frequency), form.Level(b.High - b.Low), beatText(b)}
}

// beatText says how two engines beat and what to do about it.
func beatText(b passage.Beat) string {
	text := fmt.Sprintf("%s and %s: order %g", b.Engines[0], b.Engines[1], b.Order)
	if b.Other != b.Order {
		text += fmt.Sprintf(" of the first and %g of the second", b.Other)
	}
	where := fmt.Sprintf("%s to %s dB(A) at %s with %s", form.Whole(b.Low), form.Whole(b.High), b.Place, form.Quote(b.Layout))
	apart := "another speed of either parts them"
	if b.Part > 0 {
		apart = fmt.Sprintf("part them by %.0f rpm or more", b.Part)
	}
	if b.Together {
		return text + fmt.Sprintf(", %.0f Hz: they go alike, so that the phase is chance: %s. Shift one a little until it is quietest; %s.", b.Line, where, apart)
	}
	return text + fmt.Sprintf(" beats %.2f times a second at %.0f Hz, %s. Synchronise them; or %s.", b.Frequency, b.Line, where, apart)
}

// FloorText is what no exhaust work takes out, in one paragraph, and the beats of engines that run together.
func FloorText(floors []passage.Floor, beats []passage.Beat) *form.Text {
	t := &form.Text{}
	var all []string
	for _, f := range floors {
		all = append(all, floorWords(f))
	}
	if len(all) > 0 {
		t.Say("", "Even a perfect silencer leaves %s.", strings.Join(all, ", "))
	}
	for _, b := range beats {
		t.Say("  - ", "%s", beatText(b))
	}
	return t
}
