package listen

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/source/spectrum"
)

// Said beside every sound.
const (
	setVolume     = "Play the voice first and set the volume until it is as loud as somebody who talks normally at arm's length across a table; then leave it: all sounds go by one gain."
	smallSpeakers = "Telephones and small speakers do not play the low tones in which an exhaust lives. If you cannot hear the firing tone alone, take headphones: what you hear without it is not the exhaust."
	noSplash      = "Left out: splashing water, wandering of the speed, the phase by which the line turns each order. Orders are not known of what comes through mounts and hull: that is noise."
	loudTruth     = 85.0 // dB(A)
)

// Text tells what each file is and how to listen.
func (s *Sounds) Text(w *report.Comparison) string {
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("%s\n", form.Visible(w.Boat.Text))
	say("Rendered from a prediction at the middle of the draws, not recorded. Mono, %d Hz, 24 bit, each a loop without a seam.", s.Rate)
	say("Full scale of every file: a peak of %.1f dB re 20 uPa. A meter that reads L dB re full scale means L + %.1f dB.\n", s.Full, s.Full)
	say("How to listen\n- %s\n- %s", setVolume, smallSpeakers)
	if loudest := s.loudest(); loudest.LevelDBA > loudTruth {
		say("- The loudest is %.0f dB(A) in truth: at that volume only for moments, and over 80 dB(A) a day's dose counts. Turn it down before you play it.", spectrum.Whole(loudest.LevelDBA))
	}
	for j, l := range w.Boat.Listeners {
		if truth, played, ok := s.misled(j); ok {
			say("- At %s the loudest layout is %.1f times as loud as the quietest; played %.0f dB too quiet it seems %.1f times. Play them at true level before you choose.", form.Name(l.Name), truth, tooQuiet, played)
		}
	}
	say("\nFiles")
	for _, c := range s.Clips {
		where := ""
		if c.Listener >= 0 {
			where = " at " + form.Name(w.Boat.Listeners[c.Listener].Name)
		}
		say("- %s: %s%s, %.1f dB(A)%s", c.File, form.Name(c.Name), where, spectrum.Tenth(c.LevelDBA), standsOut(w, c))
	}
	say("\nWhat they hold\n- Orders of each engine with the phases of its pulses and cycles that differ by 3 %% rms; noise in each octave. The noise is the same in all, so that only what differs is heard to differ.")
	say("- %s", noSplash)
	for _, n := range append(s.moved(), s.Notes...) {
		say("- %s", form.Sentence(n))
	}
	return b.String()
}

// standsOut is the tone that is told of a layout at a place elsewhere too, with its order. What would stand out of the file itself
// is not told: noise of whole octaves leaves edges in it that no engine makes.
func standsOut(w *report.Comparison, c Clip) string {
	if c.Layout < 0 {
		return ""
	}
	tone := w.Ears()[c.Layout][c.Listener].Tone
	lines, _ := w.Predictions[c.Layout].Listeners[c.Listener].Lines()
	i := slices.IndexFunc(lines, func(l path.Line) bool { return l.Frequency == tone.Frequency })
	if tone.Word() == "" || i < 0 {
		return ""
	}
	return fmt.Sprintf("; %s: order %g of %s", parts.ToneWords(tone), lines[i].Order, form.Name(lines[i].Engine))
}

// moved says by how much a loop changes the speed of an engine, where that can be heard: in beats.
func (s *Sounds) moved() []string {
	if s.spent < 1e-4 {
		return nil
	}
	return []string{fmt.Sprintf("For a loop without a seam speeds are moved by up to %.2f %%: beats of two engines may be faster or slower than in truth.", 100*s.spent)}
}

// loudest is the layout that is the loudest at any place.
func (s *Sounds) loudest() (top Clip) {
	for _, c := range s.Clips {
		if c.Layout >= 0 && c.LevelDBA > top.LevelDBA {
			top = c
		}
	}
	return top
}
