package charts

import (
	"maps"
	"slices"

	"hushwake/path/report"
)

func sweepTable(r *report.Page, u unitSet, j int) table {
	_, over := over(r)
	return speedTable(r, u, "Level at "+r.Listeners[j].Name+" over "+over+", dB(A)", func(q report.PageSpeed) string { return decibelA.bare(q.LevelDBA[j]) })
}

func sweepPressureTable(r *report.Page, u unitSet) table {
	_, over := over(r)
	return speedTable(r, u, "Back pressure over "+over+", "+u.pressure.unit, func(q report.PageSpeed) string { return u.pressure.bare(q.BackPressureKPa) })
}

// speedTable has a row for each speed that any sweep holds and a column for each sweep.
func speedTable(r *report.Page, u unitSet, caption string, value func(report.PageSpeed) string) table {
	axis, _ := over(r)
	t := table{Caption: caption, Head: []string{inTitle(axis), "power, " + u.power.unit}}
	at := make([]map[float64]report.PageSpeed, len(r.Sweeps))
	power := map[float64]*float64{}
	for n, s := range r.Sweeps {
		t.Head = append(t.Head, sweepName(r, s))
		at[n] = map[float64]report.PageSpeed{}
		for _, q := range s.Points {
			at[n][along(r, q)], power[along(r, q)] = q, q.PowerKW
		}
	}
	for _, rpm := range slices.Sorted(maps.Keys(power)) {
		row := []cell{words(revolutions.bare(&rpm)), num(u.power.bare(power[rpm]))}
		for n := range r.Sweeps {
			text := "–"
			if q, swept := at[n][rpm]; swept {
				text = value(q)
			}
			row = append(row, num(text))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
