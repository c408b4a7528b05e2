package charts

import (
	"html/template"

	"hushwake/charts/player"
	"hushwake/path/report"
)

// hearSection lets one hear the layouts at the main place; it stands on the page where sounds were rendered.
func hearSection(r *report.Page) section {
	return section{ID: "hear", Title: "Hear the layouts at " + r.Listeners[r.Main].Name, matter: matter{Lead: player.Lead(r.Sounds)},
		Player: template.HTML(player.HTML(r.Sounds, func(c report.PageClip) string { return titled(r, c.Layout) }))}
}
