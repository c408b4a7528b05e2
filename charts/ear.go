package charts

import (
	"fmt"

	"hushwake/path/report"
)

// tone is what stands out of a sound.
func tone(e *report.Ear) string {
	switch {
	case e == nil || e.Text == "":
		return "–"
	case e.Tone == nil:
		return "no tone"
	}
	return fmt.Sprintf("%.0f Hz, %s", orElse(e.Tone.Frequency, 0), e.Tone.Word)
}

func sones(e *report.Ear) string {
	if e == nil || e.Sone == nil {
		return "–"
	}
	return fmt.Sprintf("%.1f", *e.Sone)
}

func timesAsLoud(e *report.Ear) string {
	if e == nil || e.Times == nil {
		return "–"
	}
	return fmt.Sprintf("%.2f", *e.Times)
}

// earNote says with what the loudness at a place is compared, and what the words stand on.
func earNote(r *report.Page, j int) []string {
	for _, y := range r.Layouts {
		if e := y.Heard[j].Ear; e != nil && e.Of != "" {
			return []string{"Times as loud as " + e.Of + ", by sones. " + r.EarSource}
		}
	}
	return nil
}

// itemsOf are plain items of a list.
func itemsOf(all []string) (out []item) {
	for _, s := range all {
		out = append(out, item{Text: s})
	}
	return out
}
