package charts

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"

	"hushwake/charts/gloss"
	"hushwake/charts/picture"
	"hushwake/charts/plot"
	"hushwake/charts/style"
	"hushwake/path/report"
	"hushwake/source/cores"
)

// drawer draws pictures and keeps the first error.
type drawer struct{ err error }

// fit draws a picture for wide and narrow pages.
func (d *drawer) fit(id string, p picture.Drawing) template.HTML {
	svg, err := picture.Fit(id, p)
	if err != nil && d.err == nil {
		d.err = fmt.Errorf("%s: %w", id, err)
	}
	return template.HTML(style.Unpainted(svg))
}

// band draws a level with its band for a cell of a table.
func (d *drawer) band(r *report.Page, i, j int, id string) template.HTML {
	if len(r.Pictures) == 0 || !(r.Pictures[i].Bands[j].To > r.Pictures[i].Bands[j].From) {
		return ""
	}
	svg, err := r.Pictures[i].Bands[j].SVG(id, picture.Wide)
	if err != nil && d.err == nil {
		d.err = fmt.Errorf("%s: %w", id, err)
	}
	return template.HTML(svg)
}

// switched are pictures of the layouts, the chosen one shown first.
func (d *drawer) switched(r *report.Page, group string, layouts []int, of func(picture.Set) picture.Drawing) []view {
	if len(r.Pictures) == 0 {
		return nil
	}
	all, own := make([]view, len(layouts)), make([]drawer, len(layouts))
	cores.Each(len(layouts), func(k int) {
		i, id := layouts[k], fmt.Sprintf("%s-%d", group, layouts[k]+1)
		if x := of(r.Pictures[i]); x != nil {
			all[k] = view{Group: group, Of: "With layout", ID: id, Label: titled(r, i), On: i == max(r.Chosen, 0), Picture: own[k].fit(id+"-pic", x)}
		}
	})
	for _, o := range own {
		d.err = cmp.Or(d.err, o.err)
	}
	return slices.DeleteFunc(all, func(v view) bool { return v.ID == "" })
}

// boatSection shows the boat to scale with what one hears in it.
func boatSection(r *report.Page, d *drawer) section {
	s := section{ID: "boat", Title: "On the boat: " + loudest(r), Sheet: 1}
	s.Views = d.switched(r, "boat", plot.UpTo(len(r.Layouts)), func(p picture.Set) picture.Drawing {
		if p.Boat == nil {
			return nil
		}
		return p.Boat
	})
	if len(s.Views) == 0 {
		s.Empty = "The boat file gives no room, engine or seat a place, so there is no picture of the boat."
	}
	return s
}

// loudest names the loudest place of the layout that is shown first.
func loudest(r *report.Page) string {
	i, at := max(r.Chosen, 0), -1
	for j, h := range r.Layouts[i].Heard {
		if h.LevelDBA != nil && (at < 0 || *h.LevelDBA > *r.Layouts[i].Heard[at].LevelDBA) {
			at = j
		}
	}
	if at < 0 {
		return "no level can be told yet"
	}
	return fmt.Sprintf("with layout %s %s is loudest, %s", tag(r, i), r.Listeners[at].Name, said(r.Layouts[i].Heard[at].LevelDBA))
}

// said is a level to the whole decibel, which is as fine as a prediction bears.
func said(v *float64) string { return wholeDBA.text(v) }

// waysSection shows what one hears at each place by how it gets there.
func waysSection(r *report.Page, d *drawer) section {
	s := section{ID: "ways", Title: "What one hears, by how it gets there", Sheet: 2, Terms: gloss.Of("limit", "routes")}
	if len(r.Listeners) == 0 || len(r.Pictures) == 0 {
		s.Empty = "No ways were computed, so there is nothing to draw."
		return s
	}
	for j, l := range r.Listeners {
		detailed, title := r.InDetail(), "At "+l.Name+": "+ruled(r, max(r.Chosen, 0), j)
		if j != r.Main {
			detailed = detailed[:1]
		}
		views := d.switched(r, fmt.Sprintf("ways-%d", j+1), detailed, func(p picture.Set) picture.Drawing { return p.Ladders[j] })
		if j == r.Main {
			s.Title, s.Views = title, views
			continue
		}
		s.Folds = append(s.Folds, fold{Label: title, matter: matter{Views: views}})
	}
	s.Folds = append(s.Folds, fold{Label: "Every route in figures", matter: matter{Lead: []string{"The explain command tells the routes of any layout, step by step."}, Tables: routesTables(r)}})
	return s
}

// ruled says by what way most of the energy at a place comes.
func ruled(r *report.Page, i, j int) string {
	ways := map[string]float64{}
	sum, top, most := 0.0, "", 0.0
	for _, p := range r.Layouts[i].Heard[j].Paths {
		if p.LevelDBA == nil {
			continue
		}
		e := math.Pow(10, *p.LevelDBA/10)
		sum += e
		if ways[p.Way] += e; ways[p.Way] > most {
			top, most = p.Way, ways[p.Way]
		}
	}
	if most == 0 {
		return "nothing of the engine is heard"
	}
	words, of := picture.Way(top).Words(), most/sum
	each := said(levelOf(most))
	for _, p := range r.Layouts[i].Heard[j].Paths {
		if p.Way != top && said(levelOf(ways[p.Way])) == each {
			return "as much comes " + words + " as " + picture.Way(p.Way).Words() + " (" + each + " each)"
		}
	}
	if of < 0.5 {
		return fmt.Sprintf("no way rules, the largest comes %s (%s)", words, percent.text(&of))
	}
	return fmt.Sprintf("most comes %s (%s)", words, percent.text(&of))
}

// levelOf is the level of an energy.
func levelOf(energy float64) *float64 { return new(10 * math.Log10(energy)) }

// stepsSection follows the loudest route from source to ear.
func stepsSection(r *report.Page, d *drawer) section {
	s := section{ID: "steps", Title: "From the engine to the ear: no step could be followed", Terms: gloss.Of("octave", "insertion loss", "middle of the draws", "Schroeder frequency")}
	if n := len(r.Fall.Cascades); n == 0 {
		s.Empty = "No route was handed over for this page; the explain command prints it."
	} else if falls := r.Fall.Cascades[0].Falls; len(falls) > 0 {
		s.Title = fmt.Sprintf("From the engine to %s: %.0f dB(A) at the source, %.0f left of its loudest route", r.Fall.Seat, falls[0].After, falls[len(falls)-1].After)
		s.Views = []view{{Picture: d.fit("steps-pic", r.Fall)}}
	}
	for k := range r.Chains {
		s.Folds = append(s.Folds, chainFold(r, k))
	}
	return s
}
