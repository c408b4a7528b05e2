package listen

import (
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"

	"hushwake/path/report"
)

// ForPage renders the layouts at the chosen place.
func ForPage(w *report.Comparison) (*report.PageSounds, error) {
	all, err := sounds(w, pageRate, pageSeconds, []int{w.Listener})
	if err != nil {
		return nil, err
	}
	s, at := &report.PageSounds{Rate: all.Rate, Loudest: all.loudest().LevelDBA, Notes: []string{smallSpeakers}}, w.PlacesOnPage(w.Order(w.Listener))
	for i, c := range all.Clips {
		switch {
		case c.Layout >= 0:
			s.Clips = append(s.Clips, report.PageClip{Layout: at[c.Name], Name: c.Name, LevelDBA: c.LevelDBA, Samples: sixteen(c.Samples, uint64(i))})
		case c.File == voiceFile:
			s.Voice = sixteen(c.Samples, uint64(i))
		case c.File == firingFile:
			s.Firing = c.sound.Lines[0].Cycle
			s.FiringAt = math.Round(1e9*math.Sqrt2*math.Pow(10, (c.sound.Lines[0].Level-all.Full)/20)) / 1e9 // the last bits of a sum differ from run to run
		}
	}
	if truth, played, ok := all.misled(w.Listener); ok {
		s.Notes = append(s.Notes, fmt.Sprintf("In truth the loudest layout is %.1f times as loud as the quietest; played %.0f dB too quiet it seems %.1f times.", truth, tooQuiet, played))
	}
	s.Notes = append(append(append(s.Notes, noSplash), all.moved()...), all.Notes...)
	return s, nil
}

// sixteen are samples of 16 bits as base64, with triangular dither: what is lost is noise and not distortion.
func sixteen(x []float64, seed uint64) string {
	out, r := make([]byte, 0, 2*len(x)), rand.New(rand.NewPCG(seed, 16))
	for _, v := range x {
		n := math.Round(v*(1<<15) + r.Float64() - r.Float64())
		out = binary.LittleEndian.AppendUint16(out, uint16(int16(max(-1<<15, min(n, 1<<15-1)))))
	}
	return base64.StdEncoding.EncodeToString(out)
}
