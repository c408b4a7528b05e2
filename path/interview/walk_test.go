package interview_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path/boatfile"
	"hushwake/path/interview"
	"hushwake/path/report"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/testdata"
	"hushwake/testdata/turns"
)

// most is under how many questions, that for the goal with them, a file has to come about.
const most = 25

// known is what somebody answers who knows the boat.
var known = map[string]string{
	"length": "32 ft", "hull": "steel", "cycle": "two-stroke", "cylinders": "3", "power": "76 kW", "set-power": "10 hp", "speed": "2000 rpm", "set-speed": "3000",
	"aspiration": "turbocharged", "running": "1600 rpm", "limit": "24 inH2O", "mounts": "rubber", "exhaust": "wet",
	"line":    "= pipe\n4 in\n0.4 m\n= bend\n= injection\n350 mm\n= hose\n5 in\n1.2 m\n= lift\n350 mm\n500 mm\n= hose\n5 in\n3 m\n= silencer\npacked\nold\n24 in\n10 in\ndone",
	"way-out": "port", "engine": "2 m, 0 m, 0.2 m", "outlet": "0.5 m, -1.5 m, 0.3 m", "box-size": "1.2 m\n0.8 m\n0.8 m", "box-wall": "mat", "box-lining": "foam",
	"holes": "= in\n80 mm\nbare\n= out\n200 cm2\nlined\n= gap\n5 cm2", "breathes": "pipe", "fan": "small", "cooled": "water", "box-warm": "62 °C",
	"offers": "= offer\nA, with lagging\n25 dB\n3 kPa\n900\n900 mm\n= offer\n\n\n\n\n", "seat": "helm", "ear": "4.5 m\n-0.5 m\n2.1 m", "wall": "insulated", "door": "gaps", "lining": "wool",
	"level": "78 dBA\nphone\n45 dBA", "ideas": "done",
}

func begun(t require.TestingT, goal string) *interview.Interview {
	v, err := interview.Begin(goal)
	require.NoError(t, err)
	if h, ok := t.(interface{ Helper() }); ok {
		h.Helper()
	}
	return v
}

func loaded(t require.TestingT, v *interview.Interview) {
	_, err := boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err, string(v.Text()))
}

// passes is what `check` asks of a file.
func passes(t *testing.T, v *interview.Interview) {
	b, err := boatfile.Load("boat.yaml", v.Text())
	require.NoError(t, err)
	_, err = report.NewChecked(b, readings.Options{Options: draws.Options{N: 100}})
	require.NoError(t, err, string(v.Text()))
}

func TestNothingKnownGivesAFile(t *testing.T) {
	for _, g := range interview.Goals {
		v := begun(t, g.Value)
		n := 1
		for q := v.Next(); q != nil; q = v.Next() {
			at, of := v.Progress()
			assert.LessOrEqual(t, at, of)
			require.NoError(t, v.DontKnow(q.ID), q.ID)
			loaded(t, v)
			n++
		}
		assert.Less(t, n, most, g.Value)
		assert.Contains(t, string(v.Text()), "\nguessed:\n", "what is guessed has to stand in the file")
		passes(t, v)
		t.Logf("%s: %d questions", g.Value, n)
	}
}

func TestAllKnownGivesAFile(t *testing.T) {
	for _, goal := range []string{"too-loud", "quotes", "box"} {
		v := begun(t, goal)
		n := 1
		for q := v.Next(); q != nil; q = v.Next() {
			require.Contains(t, known, q.ID, "the test answers every question")
			require.NoError(t, v.Answer(q.ID, known[q.ID]), q.ID)
			loaded(t, v)
			n++
		}
		assert.Less(t, n, most, goal)
		assert.NotContains(t, string(v.Text()), "guessed")
		passes(t, v)
	}
}

func TestAFileThatStandsIsTakenAsItIs(t *testing.T) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(t, err)
	v := begun(t, "file")
	require.Equal(t, "file", v.Next().ID)
	require.ErrorContains(t, v.Answer("file", "boat: [1"), "")
	require.NoError(t, v.Answer("file", string(text)))
	assert.Equal(t, string(text), string(v.Text()))
	assert.Nil(t, v.Next())
	d, err := v.Doubt()
	require.NoError(t, err)
	assert.Zero(t, d, "its own levels have their bands")
}

// Any mix of answers, "I don't know", nonsense, ideas and Back leaves a file that loads; Back gives the bytes before.
func TestAnyWayThroughLoads(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		v := begun(r, rapid.SampledFrom([]string{"too-loud", "quotes", "box", "file"}).Draw(r, "goal"))
		var before []string
		for range rapid.IntRange(1, 15).Draw(r, "steps") {
			was, q := string(v.Text()), v.Next()
			if q == nil {
				return
			}
			switch rapid.IntRange(0, 9).Draw(r, "what") {
			case 0:
				require.Equal(r, len(before) > 0, v.Back())
				if n := len(before); n > 0 {
					require.Equal(r, before[n-1], string(v.Text()))
					before = before[:n-1]
				}
				continue
			case 1:
				if err := v.Answer(q.ID, rapid.SampledFrom([]string{"", "x", "-3", "NaN kW", "12 kg", "{a: [", "# no", "': ", "+ pipe", "- 1", "^ 2", "1 m, 2 m", "unknown"}).Draw(r, "odd")); err != nil {
					require.Equal(r, was, string(v.Text()))
					continue
				}
			case 2, 3:
				require.NoError(r, v.DontKnow(q.ID))
			case 4:
				ideas := v.Ideas()
				if i := rapid.IntRange(0, len(ideas)).Draw(r, "idea"); i == len(ideas) || q.ID == "file" || v.Take(ideas[i].ID) != nil {
					continue
				}
			default:
				if v.Answer(q.ID, drawn(r, q)) != nil {
					require.Equal(r, was, string(v.Text()))
					continue
				}
			}
			before = append(before, was)
			loaded(r, v)
		}
		for i := len(before) - 1; i >= 0; i-- {
			require.True(r, v.Back())
			require.Equal(r, before[i], string(v.Text()))
		}
		require.False(r, v.Back())
	})
}

// drawn is an answer of the kind that is asked.
func drawn(r *rapid.T, q *interview.Question) string {
	switch {
	case len(q.Choices) > 0:
		return rapid.SampledFrom(q.Choices).Draw(r, "choice").Value
	case q.Kind == interview.OfParts:
		return "+ " + rapid.SampledFrom(q.Parts).Draw(r, "part").Kind
	}
	return known[q.ID]
}

func TestEveryChoiceOfEveryQuestion(t *testing.T) {
	goals, exhausts := []string{"too-loud", "quotes", "box"}, []string{"dry", "wet"}
	for i := range turns.Of(t, len(goals)*len(exhausts), 5) {
		goal, exhaust := goals[i/2], exhausts[i%2]
		v := begun(t, goal)
		for q := v.Next(); q != nil; q = v.Next() {
			for _, answer := range every(q) {
				if answer == "+ injection" && slices.ContainsFunc(v.Rows("line"), func(row []string) bool { return row[0] == "injection" }) {
					require.ErrorContains(t, v.Answer(q.ID, answer), "at one place", "the line has one")
					continue
				}
				require.NoError(t, v.Answer(q.ID, answer), "%s: %s", q.ID, answer)
				loaded(t, v)
				require.True(t, v.Back())
			}
			if q.ID == "exhaust" {
				require.NoError(t, v.Answer(q.ID, exhaust))
			} else {
				require.NoError(t, v.DontKnow(q.ID))
			}
		}
		for _, idea := range v.Ideas() {
			was := string(v.Text())
			require.NoError(t, v.Take(idea.ID), idea.ID)
			loaded(t, v)
			if exhaust == "dry" {
				passes(t, v)
			}
			require.NoError(t, v.Take(idea.ID))
			assert.Equal(t, was, string(v.Text()), "an idea that is taken out again leaves nothing behind")
		}
	}
}

// every is each choice and each part of a question, each part with each of its choices.
func every(q *interview.Question) (all []string) {
	for _, c := range q.Choices {
		all = append(all, c.Value)
	}
	for _, p := range q.Parts {
		all = append(all, "+ "+p.Kind)
		for i, f := range p.Fields {
			for _, c := range f.Choices {
				all = append(all, strings.Join(append(append([]string{"= pipe", "76 mm", "1 m", "= " + p.Kind}, make([]string, i)...), c.Value), "\n"))
			}
		}
	}
	if q.ID != "line" {
		for i := range all {
			all[i] = strings.TrimPrefix(all[i], "= pipe\n76 mm\n1 m\n")
		}
	}
	for i, f := range q.Fields {
		for _, c := range f.Choices {
			all = append(all, fmt.Sprint("70 dBA", strings.Repeat("\n", i), c.Value))
		}
	}
	return all
}

// Whoever wants the answer at once leaves the rest unknown: the file is the same, its guesses with their prices in it, and one step
// back the question stands again.
func TestTheRestCanBeLeftOut(t *testing.T) {
	v := begun(t, "too-loud")
	assert.False(t, v.CanFinish(), "nothing is said yet")
	require.Error(t, v.Finish())
	require.NoError(t, v.Answer("length", "10 m"))
	require.NoError(t, v.Answer("power", "40 kW"))
	was, next := string(v.Text()), v.Next().ID
	require.NoError(t, v.Finish())
	assert.Nil(t, v.Next())
	assert.Equal(t, was, string(v.Text()))
	assert.Contains(t, was, "how many cylinders: ")
	assert.NotContains(t, was, "rated power: ")
	passes(t, v)
	done, known := v.Asked("cylinders")
	assert.True(t, done)
	assert.False(t, known)
	require.NoError(t, v.Ask("cylinders"))
	assert.Equal(t, "cylinders", v.Next().ID, "it can be answered later")
	require.True(t, v.Back())
	require.True(t, v.Back())
	assert.Equal(t, next, v.Next().ID)
}
