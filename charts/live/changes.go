package live

import "hushwake/path/boatfile/edit"

// diffLine is a line of a difference as it is shown.
type diffLine struct{ class, text string }

// around is how many lines that stay are shown beside those that change.
const around = 2

// shortened leaves out the lines that stay, but for those beside a change.
func shortened(all []edit.Line) (out []diffLine) {
	near := make([]bool, len(all))
	for i, l := range all {
		if l.Change == edit.Kept {
			continue
		}
		for k := max(0, i-around); k <= min(len(all)-1, i+around); k++ {
			near[k] = true
		}
	}
	class := map[edit.Change]string{edit.Kept: "kept", edit.Out: "out", edit.In: "in"}
	sign := map[edit.Change]string{edit.Kept: "  ", edit.Out: "− ", edit.In: "+ "}
	texts := clipped(all)
	for i, l := range all {
		switch {
		case near[i]:
			out = append(out, diffLine{class[l.Change], sign[l.Change] + texts[i]})
		case i > 0 && near[i-1]:
			out = append(out, diffLine{"kept", "…"})
		}
	}
	return out
}

// beside is how much of a long line is shown before and behind what changes in it, and half of how much of one that stays, letters.
const beside = 40

// clipped are the texts of the lines: of a long one that took the place of another what changed, with its surroundings; one that is
// new, or goes, is whole.
func clipped(all []edit.Line) []string {
	texts := make([]string, len(all))
	for i, l := range all {
		if texts[i] = l.Text; l.Change == edit.Kept {
			texts[i] = clip([]rune(l.Text), 0, beside)
		}
	}
	for i := 0; i < len(all); i++ {
		outs, ins := run(all[i:], edit.Out), 0
		if ins = run(all[i+outs:], edit.In); outs == 0 || ins != outs {
			continue
		}
		for k := i; k < i+outs; k++ {
			was, is := []rune(all[k].Text), []rune(all[k+outs].Text)
			head, tail := common(was, is)
			texts[k], texts[k+outs] = clip(was, head, len(was)-tail), clip(is, head, len(is)-tail)
		}
		i += outs + ins - 1
	}
	return texts
}

// run is how many lines at the beginning are of a kind.
func run(all []edit.Line, kind edit.Change) (n int) {
	for n < len(all) && all[n].Change == kind {
		n++
	}
	return n
}

// common are the letters that two lines share at their beginnings and at their ends.
func common(a, b []rune) (head, tail int) {
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return head, tail
}

// clip is a line from a little before to a little behind what counts in it.
func clip(line []rune, from, to int) string {
	from, to = max(0, from-beside), min(len(line), to+beside)
	text := string(line[from:to])
	if from > 0 {
		text = "…" + text
	}
	if to < len(line) {
		text += "…"
	}
	return text
}
