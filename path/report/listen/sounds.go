package listen

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/sound"
	"hushwake/source/cores"
	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
	"hushwake/source/spectrum/loudness"
)

// Sounds are layouts as they are heard at places, by one gain: true in level against each other.
type Sounds struct {
	Rate  int
	Full  float64 // dB re 20 µPa of full scale
	Clips []Clip  // the layouts by place, in the order of the table, then the references
	Notes []string
	spent float64 // largest change of an engine's speed that the loops ask for, relative
}

// Clip is one sound.
type Clip struct {
	File             string  // its name as a file
	Layout, Listener int     // by index; -1 = it is a reference
	Name             string  // in words
	LevelDBA         float64 // in truth
	Samples          []float64
	sound            sound.Sound
}

// The seed of every sound; equal noise lets the layouts alone differ.
const soundSeed = 1

// Files of references.
const (
	voiceFile  = "voice.wav"
	firingFile = "firing.wav"
)

// How sounds are written: as files, and in a page, whose rate holds the 8 kHz octave.
const (
	fileRate, fileSeconds = 48000, 12.0
	pageRate, pageSeconds = 24000, 4.4
)

// ForFiles are all layouts at all places for files.
func ForFiles(w *report.Comparison) (*Sounds, error) {
	seats := make([]int, len(w.Boat.Listeners))
	for j := range seats {
		seats[j] = j
	}
	return sounds(w, fileRate, fileSeconds, seats)
}

// sounds renders the layouts at some places, and the references.
func sounds(w *report.Comparison, rate int, seconds float64, seats []int) (*Sounds, error) {
	s := &Sounds{Rate: rate}
	for _, j := range seats {
		for _, i := range w.Order(j) {
			if name := w.Predictions[i].Layout.Name; w.Asked(i) {
				s.Notes = append(s.Notes, fmt.Sprintf("%s is left out: it can't be judged before its maker has answered", form.Quote(name)))
				continue
			}
			h := &w.Predictions[i].Listeners[j]
			s.Clips = append(s.Clips, Clip{File: fileName(fmt.Sprintf("place%d-layout%d", j+1, number(w, i)), w.Boat.Listeners[j].Name, w.Predictions[i].Layout.Name),
				Layout: i, Listener: j, Name: w.Predictions[i].Layout.Name, LevelDBA: h.DBA(), sound: sound.Of(&w.Predictions[i], j)})
		}
	}
	s.Notes = form.Unique(s.Notes)
	if len(s.Clips) == 0 {
		return nil, fmt.Errorf("no layout can be heard\nhint: answer the questions of 'hushwake check' first")
	}
	s.references()
	return s, s.render(seconds)
}

// number is where a layout stands in the file, from 1.
func number(w *report.Comparison, i int) int {
	return 1 + slices.IndexFunc(w.Boat.Layouts, func(l *path.Layout) bool { return l.Name == w.Predictions[i].Layout.Name })
}

// references are a voice to set the volume by, a tone for a meter, and the firing tone alone.
func (s *Sounds) references() {
	add := func(file, name string, level float64, of sound.Sound) {
		s.Clips = append(s.Clips, Clip{File: file, Layout: -1, Listener: -1, Name: name, LevelDBA: level, sound: of})
	}
	first := s.Clips[0]
	add(voiceFile, "noise with the spectrum of speech, as loud as a normal voice at 1 m (no voice was recorded)", sound.Voice, sound.VoiceNoise())
	add("tone-1000-hz.wav", "a tone of 1 kHz for those who have a meter", sound.Voice, sound.Tone(1000, sound.Voice))
	if f, level, ok := s.firing(first.Listener); ok {
		add(firingFile, fmt.Sprintf("the firing tone alone, %.3g Hz, as loud as where it is loudest there", f), level+spectrum.AAt(f), sound.Tone(f, level))
		if under := audibility.Threshold(f) - level; under > 0 {
			s.Notes = append(s.Notes, fmt.Sprintf("the firing tone alone, %.3g Hz, lies %.0f dB under what an ear just hears: not to hear it says nothing of a speaker", f, math.Ceil(under)))
		}
	}
}

// firing is the firing tone at a place in the layout where it is the loudest.
func (s *Sounds) firing(seat int) (frequency, level float64, ok bool) {
	most := math.Inf(-1)
	for _, c := range s.Clips {
		if f, l, found := c.sound.Firing(); c.Listener == seat && found && l+spectrum.AAt(f) > most {
			most, frequency, level, ok = l+spectrum.AAt(f), f, l, true
		}
	}
	return frequency, level, ok
}

// render works the samples out, side by side.
func (s *Sounds) render(seconds float64) error {
	errs := make([]error, len(s.Clips))
	misses := make([]float64, len(s.Clips))
	cores.Each(len(s.Clips), func(i int) {
		c := &s.Clips[i]
		l, err := sound.NewLoop(s.Rate, seconds, c.sound)
		if errs[i] = err; err == nil {
			c.Samples, misses[i] = sound.Render(c.sound, l, soundSeed), l.Miss(c.sound)
		}
	})
	all := make([][]float64, len(s.Clips))
	for i, err := range errs {
		if err != nil {
			return err
		}
		all[i], s.spent = s.Clips[i].Samples, math.Max(s.spent, misses[i])
	}
	s.Full = sound.Full(all...)
	for i := range s.Clips {
		s.Clips[i].Samples = sound.Scaled(s.Clips[i].Samples, s.Full)
	}
	return nil
}

// fileName is a name of plain letters, digits and dashes, whatever the names hold.
func fileName(first string, names ...string) string {
	const most = 24
	for _, n := range names {
		plain := strings.Trim(strings.Map(func(c rune) rune {
			switch {
			case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
				return c
			case c >= 'A' && c <= 'Z':
				return c + 'a' - 'A'
			}
			return '-'
		}, n), "-")
		for strings.Contains(plain, "--") {
			plain = strings.ReplaceAll(plain, "--", "-")
		}
		if plain = strings.Trim(plain[:min(len(plain), most)], "-"); plain != "" {
			first += "-" + plain
		}
	}
	return first + ".wav"
}

// tooQuiet is by how much a sound is often played under its true level, dB.
const tooQuiet = 20.0

// misled says where playing quieter than real changes by more than a fifth how the loudest and the quietest layout of a place
// compare: low tones fall under the threshold of hearing first.
func (s *Sounds) misled(seat int) (truth, played float64, ok bool) {
	loud, soft := -1, -1
	for i, c := range s.Clips {
		if c.Listener != seat || c.Layout < 0 {
			continue
		}
		if loud < 0 || c.LevelDBA > s.Clips[loud].LevelDBA {
			loud = i
		}
		if soft < 0 || c.LevelDBA < s.Clips[soft].LevelDBA {
			soft = i
		}
	}
	ratio := func(down float64) float64 {
		a, errA := s.Clips[loud].sone(down)
		b, errB := s.Clips[soft].sone(down)
		if errA != nil || errB != nil || !(b > 0.01) {
			return math.NaN()
		}
		return a / b
	}
	if loud < 0 || loud == soft {
		return 0, 0, false
	}
	truth, played = ratio(0), ratio(tooQuiet)
	return truth, played, math.Abs(played/truth-1) > 0.2
}

// sone is the loudness of a clip played so many dB down.
func (c *Clip) sone(down float64) (float64, error) {
	lines := make([]spectrum.Line, len(c.sound.Lines))
	for i, l := range c.sound.Lines {
		lines[i] = spectrum.Line{Frequency: l.Cycle * float64(l.Multiple), Level: l.Level - down}
	}
	return loudness.Heard(lines, c.sound.Broad.Shift(-down))
}
