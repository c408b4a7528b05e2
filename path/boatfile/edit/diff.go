package edit

// Change says what became of a line.
type Change int

// What becomes of a line.
const (
	Kept Change = iota
	Out
	In
)

// Line is one line of a difference; Was and Is are its numbers in both texts from 1, 0 where it isn't in one.
type Line struct {
	Change  Change
	Was, Is int
	Text    string
}

// widest is how many pairs of lines are compared between what two texts have in common at head and foot; beyond it all
// lines there count as changed.
const widest = 4 << 20

// Diff is what changed between two texts, line by line: the longest common subsequence of lines is kept. Line ends are part of no
// line; a line break at the end of the last line begins no further line.
func Diff(was, is []byte) []Line {
	a, b := fileLines(was), fileLines(is)
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	foot := 0
	for foot < len(a)-head && foot < len(b)-head && a[len(a)-1-foot] == b[len(b)-1-foot] {
		foot++
	}
	w := differ{a: a, b: b}
	w.kept(head)
	w.between(len(a)-foot, len(b)-foot)
	w.kept(foot)
	return w.out
}

func fileLines(text []byte) []string {
	all := rows(string(text))
	if all[len(all)-1] == "" {
		all = all[:len(all)-1]
	}
	return all
}

// differ walks down two texts at once.
type differ struct {
	a, b []string
	i, j int
	out  []Line
}

func (w *differ) kept(n int) {
	for ; n > 0; n-- {
		w.out = append(w.out, Line{Kept, w.i + 1, w.j + 1, w.a[w.i]})
		w.i, w.j = w.i+1, w.j+1
	}
}

// between goes down to line m of the one and n of the other.
func (w *differ) between(m, n int) {
	common := longest(w.a[w.i:m], w.b[w.j:n])
	i, j := w.i, w.j
	for w.i < m || w.j < n {
		switch {
		case w.i < m && w.j < n && w.a[w.i] == w.b[w.j]:
			w.kept(1)
		case w.j == n || w.i < m && (common == nil || common[w.i-i+1][w.j-j] >= common[w.i-i][w.j-j+1]):
			w.out = append(w.out, Line{Out, w.i + 1, 0, w.a[w.i]})
			w.i++
		default:
			w.out = append(w.out, Line{In, 0, w.j + 1, w.b[w.j]})
			w.j++
		}
	}
}

// longest is the length of the longest common subsequence behind each pair of lines; nil where there are too many.
func longest(a, b []string) [][]int32 {
	if len(a)*len(b) > widest {
		return nil
	}
	all := make([][]int32, len(a)+1)
	for i := range all {
		all[i] = make([]int32, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if all[i][j] = max(all[i+1][j], all[i][j+1]); a[i] == b[j] {
				all[i][j] = all[i+1][j+1] + 1
			}
		}
	}
	return all
}
