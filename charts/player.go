package charts

import (
	"fmt"
	"html/template"

	"hushwake/charts/player"
	"hushwake/path/report"
)

// hearSection lets one hear the layouts at the main place; it stands on the page where sounds were rendered.
func hearSection(r *report.Page) section {
	return section{ID: "hear", Title: "Hear the layouts at " + r.Listeners[r.Main].Name, matter: matter{Lead: player.Lead(r.Sounds)},
		Player: template.HTML(player.HTML(r.Sounds, func(c report.PageClip) string { return titled(r, c.Layout) }))}
}

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
	}
	if err := player.Check(r.Sounds); err != nil {
		return fmt.Errorf("charts: %w", err)
	}
	return nil
}
