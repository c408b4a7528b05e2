package charts

import (
	_ "embed" // the player stands in the binary
	"fmt"
	"html/template"

	"hushwake/path/report"
)

//go:embed assets/player.js
var playerScript string

// player is what plays the layouts at one place.
type player struct {
	Rate             int
	Firing, FiringAt float64
	Clips            []clip
	Voice            template.HTML
}

// clip is a sound with its button.
type clip struct {
	Key   int // on the keyboard, 0 = none
	Label string
	Data  template.HTML
}

// hearSection lets one hear the layouts at the main place; it stands on the page where sounds were rendered.
func hearSection(r *report.Page) section {
	s := section{ID: "hear", Title: "Hear the layouts at " + r.Listeners[r.Main].Name, matter: matter{Lead: append([]string{
		"Rendered from the prediction, not recorded. Start quiet: press the noise that stands for a voice and raise the volume until it is as loud as somebody talking normally at arm's length, then compare. Loud sound harms ears: never turn it up further."},
		r.Sounds.Notes...)}}
	if r.Sounds.Loudest > loudForEars {
		s.Lead = append(s.Lead, fmt.Sprintf("The loudest is %.0f dB(A) in truth: at the volume of the voice listen for moments only, or turn it down.", r.Sounds.Loudest))
	}
	p := &player{Rate: r.Sounds.Rate, Firing: r.Sounds.Firing, FiringAt: r.Sounds.FiringAt, Voice: template.HTML(r.Sounds.Voice)}
	for k, c := range r.Sounds.Clips {
		one := clip{Label: fmt.Sprintf("%s, %.0f dB(A)", titled(r, c.Layout), c.LevelDBA), Data: template.HTML(c.Samples)}
		if k < 9 {
			one.Key = k + 1
		}
		p.Clips = append(p.Clips, one)
	}
	s.Player = p
	return s
}

// loudForEars is the level from which a note stands beside the player, dB(A).
const loudForEars = 85.0

// checkSounds tells whether the sounds belong to layouts of the page and are what they should be.
func checkSounds(r *report.Page) error {
	if r.Sounds == nil {
		return nil
	}
	if r.Main < 0 || r.Main >= len(r.Listeners) {
		return fmt.Errorf("charts: sounds at place %d of %d", r.Main, len(r.Listeners))
	}
	for _, c := range r.Sounds.Clips {
		if c.Layout < 0 || c.Layout >= len(r.Layouts) {
			return fmt.Errorf("charts: a sound of layout %d of %d", c.Layout, len(r.Layouts))
		}
		if !inBase64(c.Samples) {
			return fmt.Errorf("charts: the sound of layout %d is not base64", c.Layout)
		}
	}
	if !inBase64(r.Sounds.Voice) {
		return fmt.Errorf("charts: the voice is not base64")
	}
	return nil
}

// inBase64 tells whether a text holds nothing but base64, so that it can stand in the page as it is.
func inBase64(s string) bool {
	for i := range len(s) {
		c := s[i]
		if (c < 'A' || c > 'Z') && (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '+' && c != '/' && c != '=' {
			return false
		}
	}
	return s != ""
}
