// Package player lets one hear the layouts at a place, on every page in the same way: what is said, the buttons, their style and
// their script. HTML is a string written by Go alone, so that it runs where no template does. A page with a player allows its
// Script by the content policy and needs nothing else: samples stand in the page, no address is fetched or made.
package player

import (
	_ "embed" // style and script stand in the binary
	"fmt"
	"strconv"
	"strings"

	"hushwake/charts/picture"
	"hushwake/path/report"
)

// Script plays what HTML wrote, at once or whenever it comes to stand on the page.
//
//go:embed player.js
var Script string

// Sheet is its part of a style sheet.
//
//go:embed player.css
var Sheet string

// loudForEars is the level from which a note stands beside the player, dB(A).
const loudForEars = 85.0

// Lead is what is said before the buttons: what must be known before the first is pressed. The rest stands behind them.
func Lead(s *report.PageSounds) []string {
	lead := "Rendered from the prediction, not recorded. Play the voice first, set the volume until it is as loud as somebody talking normally at arm's length, and never turn it up further: loud sound harms ears."
	if s.Loudest > loudForEars {
		lead += fmt.Sprintf(" The loudest is %.0f dB(A) in truth: at that volume listen for moments only, or turn it down.", s.Loudest)
	}
	return []string{lead}
}

// HTML is the player of checked sounds; title names a layout.
func HTML(s *report.PageSounds, title func(report.PageClip) string) string {
	var b strings.Builder
	number := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	fmt.Fprintf(&b, `<div id="player" class="player" role="group" aria-label="Player" data-rate="%d" data-firing="%s" data-firing-at="%s">`+"\n<p>", s.Rate, number(s.Firing), number(s.FiringAt))
	button(&b, "voice", 0, "Noise as loud as a voice at 1 m, 60 dB(A)")
	if s.Firing > 0 {
		button(&b, "firing", 0, fmt.Sprintf("Firing tone alone, %.3g Hz", s.Firing))
	}
	b.WriteString(`<label for="player-volume">Volume</label> <input type="range" id="player-volume" min="0" max="100" value="30">
<button type="button" id="player-stop">Stop</button></p>
<p>`)
	for k, c := range s.Clips {
		button(&b, strconv.Itoa(k), k+1, fmt.Sprintf("%s, %.0f dB(A)", title(c), c.LevelDBA))
	}
	b.WriteString(`</p>
<p class="made">One gain for all. Esc stops; the figures 1 to 9 play the layouts in the order of the buttons.</p>
<p id="player-said" role="status" aria-live="polite">Nothing plays until a button is pressed.</p>
`)
	for _, n := range s.Notes {
		b.WriteString("<p>" + picture.Escape(n) + "</p>\n")
	}
	held(&b, "voice", s.Voice)
	for k, c := range s.Clips {
		held(&b, strconv.Itoa(k), c.Samples)
	}
	b.WriteString("</div>")
	return b.String()
}

// button plays a sound once the script has made it work; a key over 9 and 0 are none.
func button(b *strings.Builder, name string, key int, label string) {
	on := ""
	if key > 0 && key < 10 {
		on = ` data-key="` + strconv.Itoa(key) + `"`
	}
	fmt.Fprintf(b, `<button type="button" data-clip="%s" aria-pressed="false" disabled%s>%s</button>`+"\n", name, on, picture.Escape(label))
}

// held are the samples of a sound.
func held(b *strings.Builder, name, samples string) {
	b.WriteString(`<script type="application/octet-stream" id="clip-` + name + `">` + samples + "</script>\n")
}

// Check tells whether every sound can stand in a page as it is.
func Check(s *report.PageSounds) error {
	for _, c := range s.Clips {
		if !inBase64(c.Samples) {
			return fmt.Errorf("the sound of layout %d is not base64", c.Layout)
		}
	}
	if !inBase64(s.Voice) {
		return fmt.Errorf("the voice is not base64")
	}
	return nil
}

// inBase64 tells whether a text holds nothing but base64.
func inBase64(s string) bool {
	for i := range len(s) {
		c := s[i]
		if (c < 'A' || c > 'Z') && (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '+' && c != '/' && c != '=' {
			return false
		}
	}
	return s != ""
}
