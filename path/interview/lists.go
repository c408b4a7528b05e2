package interview

import "slices"

// Rows are the parts of a list as it stands: kind, then its fields.
func (v *Interview) Rows(id string) [][]string {
	if rows, ok := v.lists[id]; ok {
		return rows
	}
	if id == "line" {
		return v.usualLine(v.goal == "box")
	}
	return nil
}

// usual rows of an exhaust, wet and dry; of a generator it is thin.
func (v *Interview) usualLine(wet bool) [][]string {
	bore := "76 mm"
	if v.goal == "box" {
		bore = "38 mm"
	}
	if !wet {
		return [][]string{{"pipe", bore, "3 m"}, {"silencer", "", "", "", ""}, {"pipe", bore, "1 m"}}
	}
	return [][]string{{"pipe", bore, "0.3 m"}, {"injection", ""}, {"hose", bore, "1 m"}, {"lift", "", ""}, {"hose", bore, "3 m"}}
}

// wet tells whether water is sprayed into the exhaust.
func (v *Interview) wet() bool {
	for _, row := range v.Rows("line") {
		if row[0] == "injection" {
			return true
		}
	}
	return false
}

func clone(rows [][]string) (out [][]string) {
	for _, row := range rows {
		out = append(out, slices.Clone(row))
	}
	return out
}
