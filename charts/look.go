package charts

import (
	"fmt"

	"hushwake/charts/plot"
	"hushwake/path/report"
)

// lookIn is that of a layout: the chosen one in colour, today's in black, the rest grey.
func lookIn(r *report.Page, i int) plot.Look { return coloured(r, i, plot.LookOf(i)) }

// coloured is a look in the colour and strength of a layout.
func coloured(r *report.Page, i int, k plot.Look) plot.Look {
	switch i {
	case max(r.Chosen, 0):
		k.Colour, k.Width, k.Dash = "c1", 3, 0
	case r.Today:
		k.Colour, k.Width, k.Dash = "ink", 2.5, 1
	default:
		k.Colour, k.Width = "other", 1.5
	}
	return k
}

// tag is the number by which a layout goes in charts: its place in the file, as the commands count.
func tag(r *report.Page, i int) string { return fmt.Sprint(r.Layouts[i].Place) }

// titled is tag, name and, in words, whether the layout is refused.
func titled(r *report.Page, i int) string {
	s := tag(r, i) + " · " + r.Layouts[i].Name
	if r.Layouts[i].Refused {
		s += " (refused)"
	}
	return s
}
