package charts

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"hushwake/charts/gloss"
	"hushwake/path/report"
	"hushwake/path/report/form"
)

// yardSection is for whom builds it: every line to scale with pressure, temperature and growth, price and space.
func yardSection(r *report.Page, u unitSet, d *drawer) section {
	s := section{ID: "yard", Title: "For the yard: " + toBuild(r, u), Sheet: 3, Terms: append(gloss.Of("back pressure", "growth"), gloss.Spoken(partsOf(r), "bellows", "riser", "lift chamber", "anti siphon", "separator")...)}
	shown := max(r.Chosen, 0)
	for k := range r.Layouts[shown].Exhausts {
		if len(r.Pictures) > 0 {
			s.Views = append(s.Views, lineView(r, d, shown, k))
		}
	}
	s.Folds = []fold{{Label: "The same in figures, with velocities", matter: matter{Tables: lineTables(r, u, shown)}}}
	for i := range r.Layouts {
		f := fold{Label: titled(r, i)}
		for k := range r.Layouts[i].Exhausts {
			if in := sharers(r, i, k); in[0] != i || slices.Contains(in, shown) {
				continue
			}
			if f.Label = lineName(r, i, k); len(r.Pictures) > 0 {
				f.Views = append(f.Views, lineView(r, d, i, k))
			}
			f.Tables = append(f.Tables, alongTable(r, u, i, k))
		}
		if len(f.Tables) > 0 {
			s.Folds = append(s.Folds, f)
		}
	}
	if len(s.Folds[0].Tables) == 0 {
		s.Folds = s.Folds[1:]
	}
	s.Folds = append(s.Folds, fold{Label: "Price and space of every layout", matter: matter{
		Lead: []string{"A missing price is not a low one: nobody stated it. Length and mass are of the whole exhaust line."}, Tables: []table{priceTable(r, u, currency(r))}}})
	return s
}

// partsOf names the kinds of the parts of all lines.
func partsOf(r *report.Page) (all string) {
	for _, y := range r.Layouts {
		for _, e := range y.Exhausts {
			for _, a := range e.Along {
				all += a.Kind + ", "
			}
		}
	}
	return all
}

// toBuild says what the line of the layout that is told of asks for.
func toBuild(r *report.Page, u unitSet) string {
	y := r.Layouts[max(r.Chosen, 0)]
	if len(y.Exhausts) == 0 {
		return "no exhaust line"
	}
	n := 0
	for _, a := range y.Exhausts[0].Along {
		if a.Kind != "step" { // of bore between two parts: nothing to build
			n++
		}
	}
	s := "a line of " + form.Counted(n, "part")
	if e := worstExhaust(y); e.RatedBackPressure != nil {
		s += ", " + u.pressure.text(e.RatedBackPressure) + " at rated" + ofLimit(e)
	}
	return s
}

func lineView(r *report.Page, d *drawer, i, k int) view {
	v := view{Picture: d.fit(fmt.Sprintf("line-%d-%d-pic", i+1, k+1), r.Pictures[i].Lines[k])}
	if all := r.Layouts[i].Exhausts; len(all) > 1 {
		v.Label = "The line of " + all[k].Engine
	}
	return v
}

func lineTables(r *report.Page, u unitSet, i int) (out []table) {
	for k := range r.Layouts[i].Exhausts {
		out = append(out, alongTable(r, u, i, k))
	}
	return out
}

// sharers are the layouts in which the engine has the very same line, the first of them first.
func sharers(r *report.Page, i, k int) []int {
	var in []int
	for n, l := range r.Layouts {
		if e := exhaustOf(l, r.Layouts[i].Exhausts[k].Engine); n == i || e != nil && sameLine(*e, r.Layouts[i].Exhausts[k]) {
			in = append(in, n)
		}
	}
	return in
}

func sameLine(a, b report.Exhaust) bool {
	return a.Engine == b.Engine && reflect.DeepEqual(a.Along, b.Along) && reflect.DeepEqual(a.Limit, b.Limit) &&
		reflect.DeepEqual(a.InsertionLoss, b.InsertionLoss) && reflect.DeepEqual(a.Loss, b.Loss)
}

// lineName names the layouts that have the line, and the engine where there are several.
func lineName(r *report.Page, i, k int) string {
	name := titled(r, i)
	if in := sharers(r, i, k); len(in) > 1 {
		name = layoutsSaid(r, in)
	}
	if len(r.Layouts[i].Exhausts) > 1 {
		name += ", " + r.Layouts[i].Exhausts[k].Engine
	}
	return name
}

// elementName is the name that cautions use for the element too, in plain words.
func elementName(a report.Along) string {
	if a.Name == "" {
		return plainWord(a.Kind)
	}
	return plainWord(a.Name)
}

func plainWord(s string) string { return strings.ReplaceAll(s, "_", " ") }

func alongTable(r *report.Page, u unitSet, i, k int) table {
	t := table{Caption: "Along the line, rated duty: " + lineName(r, i, k), Head: []string{"Element", "kind", "uses, " + u.pressure.unit,
		"begins at, " + u.pressure.unit, "gas, " + u.temperature.unit, "skin, " + u.temperature.unit, "velocity, " + u.speed.unit, "growth, " + u.small.unit}}
	for _, a := range r.Layouts[i].Exhausts[k].Along {
		t.Rows = append(t.Rows, []cell{words(elementName(a)), words(plainWord(a.Kind)), num(u.pressure.bare(a.LossKPa)), num(u.pressure.bare(a.PressureKPa)),
			num(u.temperature.bare(a.GasC)), num(u.temperature.bare(a.SkinC)), num(u.speed.bare(a.VelocityMS)), num(u.small.bare(a.GrowthMM))})
	}
	return t
}

func currency(r *report.Page) quantity {
	unit := r.Currency
	if unit == "" {
		unit = "currency units"
	}
	return quantity{unit: unit, factor: 1}
}

func priceTable(r *report.Page, u unitSet, money quantity) table {
	t := table{Caption: "Price and space by layout", Cards: true, Head: []string{"Layout", "price, " + money.unit, "price remarks", "length, " + u.length.unit,
		"mass, " + u.mass.unit, "fits", "space remarks", "lead time"}}
	for i, l := range r.Layouts {
		t.Rows = append(t.Rows, []cell{words(titled(r, i)), num(money.bare(l.Price)), words(l.PriceNote), num(u.length.bare(l.LengthM)),
			num(u.mass.bare(l.MassKG)), words(fits(l.Fits)), words(l.SpaceNote), words(l.LeadTime)})
	}
	return withoutEmptyColumns(t)
}

func fits(b *bool) string {
	if b == nil {
		return "no envelope stated"
	}
	return yes(*b)
}
