package panel

import (
	"cmp"
	"strings"
)

// Default is the built-in table.
func Default() *Materials {
	t, _ := builtIn()
	return &Materials{Rows: append([]Material(nil), t.materials...)}
}

// Add puts a row of the user in the table; it hides a built-in row of the same name, whose usual thickness stays.
func (m *Materials) Add(row Material) {
	row.User = true
	was, _ := m.Find(row.Name)
	row.UsualThickness = cmp.Or(row.UsualThickness, was.UsualThickness)
	m.Rows = append(m.Rows, row)
}

// Find gives the row of that name or of one of its other names; letter case does not matter. Rows
// added later come first.
func (m *Materials) Find(name string) (Material, bool) {
	name = strings.TrimSpace(name)
	for i := len(m.Rows) - 1; i >= 0; i-- {
		if named(name, m.Rows[i].Name, m.Rows[i].Aliases) {
			return m.Rows[i], true
		}
	}
	return Material{}, false
}

func named(name, own string, aliases []string) bool {
	if strings.EqualFold(name, own) {
		return true
	}
	for _, a := range aliases {
		if strings.EqualFold(name, a) {
			return true
		}
	}
	return false
}

// Nearest is the name of a material or lining closest to the one given, "" when none is close:
// no more than a third of the letters may differ.
func (m *Materials) Nearest(name string) string {
	name = strings.ToLower(strings.TrimSpace(name))
	best, least := "", len(name)/3+1
	try := func(own string, aliases []string) {
		for _, n := range append([]string{own}, aliases...) {
			if d := editDistance(name, strings.ToLower(n)); d < least || d == least && best == "" && d <= len(name)/3 {
				best, least = n, d
			}
		}
	}
	for i := len(m.Rows) - 1; i >= 0; i-- {
		try(m.Rows[i].Name, m.Rows[i].Aliases)
	}
	t, _ := builtIn()
	for _, l := range t.linings {
		try(l.name, l.aliases)
	}
	return best
}

// editDistance counts the letters to change, add or drop (Levenshtein), a swap of neighbours as one.
func editDistance(a, b string) int {
	s, t := []rune(a), []rune(b)
	rows := [3][]int{make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := 1; i <= len(s); i++ {
		rows[2][0] = i
		for j := 1; j <= len(t); j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			rows[2][j] = min(rows[1][j]+1, rows[2][j-1]+1, rows[1][j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				rows[2][j] = min(rows[2][j], rows[0][j-2]+1)
			}
		}
		rows[0], rows[1], rows[2] = rows[1], rows[2], rows[0]
	}
	return rows[1][len(t)]
}
