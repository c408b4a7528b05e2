package scene_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/testdata/turns"
)

// Over drawn boats: a line of which the place or a size of a part is left out lowers what nine of ten such boats keep under by no
// more than 1 dB, whatever stands in it. Of twelve boats a run takes four.
func TestLeavingOutOfALineNeverQuietens(t *testing.T) {
	one := regexp.MustCompile(`chamber: \{[^}]*\}`)
	boats, tried := 0, 0
	for seed := range turns.Of(t, 12, 3) {
		boats++
		d := &forgottenBoat{r: rand.New(rand.NewPCG(uint64(seed), 11))}
		place := d.word("engine room", "trunk", "outside")
		body := one.ReplaceAllString(d.text(), fmt.Sprintf(d.word("given: {insertion_loss: {bands: [2, 6, 12, 14, 14, 12, 10, 8, 8]}, length: %.2[1]f m, diameter: %.3[2]f m, bore: 90 mm, in: %[3]s}",
			"silencer: {kind: baffled, state: old, length: %.2[1]f m, diameter: %.3[2]f m, bore: 90 mm, in: %[3]s}",
			"chamber: {inlet_bore: 90 mm, bore: %.3[2]f m, length: %.2[1]f m, outlet_bore: 90 mm, inlet_extension: 0 mm, outlet_extension: 0 mm, in: %[3]s}"),
			d.between(0.4, 1), d.between(0.2, 0.35), place))
		whole, _ := spreads(t, body, 3000)
		for _, less := range []string{`, length: [\d.]+ m(, (?:diameter|outlet_bore|bore))`, `, diameter: [\d.]+ m(, bore: 90 mm)`, `, bore: 0[\d.]+ m(, length)`, `, in: ` + place + `(\}, pipe: \{bore: 90 mm, length: 3)`} {
			text := regexp.MustCompile(less).ReplaceAllString(body, "$1")
			if text == body {
				continue // another kind of silencer
			}
			tried++
			left, _ := spreads(t, text, 3000)
			for i, w := range whole {
				require.Greater(t, left[i].High, w.High-1, "seed %d without %s: at %s", seed, less, w.Listener)
			}
		}
	}
	require.Greater(t, tried, 2*boats)
}

// A wall of a line whose place is not stated is heard in the spaces of the stated ones before and behind it, with all its power;
// it says so, and where none is stated it is heard in the engine's, and in a placed trunk
// between that and the open.
func TestAWallOfUnknownPlaceIsHeardWhereItsNeighboursRun(t *testing.T) {
	text := strings.Replace((&forgottenBoat{r: rand.New(rand.NewPCG(1, 7))}).text(), "in: engine room}, chamber", "in: trunk}, chamber", 1)
	text = regexp.MustCompile(`, in: [a-z ]+(\}, pipe: \{bore: 90 mm, length: 3)`).ReplaceAllString(text, "$1")
	places := func(text string) (all []string) {
		_, p, _ := drawn(t, text, 100)
		for _, h := range p[0].Listeners {
			for _, r := range h.Routes {
				if r.Way != path.ByLineWall {
					continue
				}
				for _, s := range r.Steps {
					if strings.HasPrefix(s.Name, "through the wall of chamber") {
						for _, n := range s.Notes {
							if !slices.Contains(all, n) {
								all = append(all, n)
							}
						}
					}
				}
			}
		}
		slices.Sort(all)
		return all
	}
	both := places(text)
	require.Len(t, both, 2)
	require.Contains(t, both[0], "outside is taken")
	require.Contains(t, both[1], "trunk is taken")
	none := places(strings.NewReplacer(", in: trunk}", "}", ", in: outside}]", "}]").Replace(text))
	require.Len(t, none, 2)
	require.Contains(t, none[0], "engine room is taken")
	require.Contains(t, none[1], "trunk is taken")
}

// The step through a wall of the line holds the loss of the line before it, and its formula says so.
func TestTheStepThroughALineWallTellsOfTheLineBefore(t *testing.T) {
	_, p, _ := drawn(t, (&forgottenBoat{r: rand.New(rand.NewPCG(1, 7))}).text(), 100)
	n := 0
	for _, r := range p[0].Listeners[0].Routes {
		for _, s := range r.Steps {
			if strings.HasPrefix(s.Name, "through the wall of ") {
				require.Contains(t, s.Formula, "less what the line up to it takes off")
				n++
			}
		}
	}
	require.NotZero(t, n)
}
