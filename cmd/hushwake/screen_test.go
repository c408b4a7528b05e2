package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/testdata/turns"
)

// screen is a brief comparison as a terminal of so many columns shows it, with its warnings.
func screen(t *testing.T, w *report.Comparison, columns int) string {
	t.Helper()
	var out bytes.Buffer
	c := &common{streams: streams{out: &out, err: &out, columns: columns}}
	require.NoError(t, c.print(c.brief(w)))
	return out.String()
}

func compared(t *testing.T, name string, text []byte) *report.Comparison {
	t.Helper()
	b, err := boatfile.Load(name, text)
	require.NoError(t, err)
	w, err := selection{draws: draws.Options{N: 200}}.compare(&common{}, b)
	require.NoError(t, err)
	return w
}

// advised is what the screen of each demo says at the narrowest, and how it marks a layout.
var advised = map[string][2]string{
	"generator-box": {"at pillow, as today; of the 5 that sound the same it keeps the engine cool for the least money. It stays over the limit of the file at pillow", "TAKE THIS"},
	"dry-stack":     {"times by sones). It stays over the limit of the file at aft cabin.", "TAKE THIS"},
	"three-quotes":  {"under today (about a third as loud, 0.4 times by sones); of the 2 that sound the same it costs no more than the other. It stays over the limit of the file at saloon.", "TAKE THIS"},
	"everything":    {"Nothing can be advised: every layout of the file is refused", "REFUSED: over limit but for a reading"},
}

// pointsOf are what the dangers and refusals of each demo come to.
var pointsOf = map[string][]string{
	"generator-box": {"Too hot by a reading: 74 °C", "Exhaust gas can be drawn in", "For 650 EUR more \"heavier mat, ducts and fan\" lessens a danger but keeps it"},
	"dry-stack":     {"doesn't fit", "oil or fuel on it can catch fire", "Exhaust gas can be drawn in"},
	"three-quotes":  {"doesn't fit", "oil or fuel on it can catch fire"},
	"everything":    {"on the line of main, oil or fuel on it can catch fire", "on the line of set, oil or fuel on it can catch fire", "Main: Back pressure at rated is "},
}

// Each demo fits on one screen with its warnings, and says what to take, every level, the danger that no one smells and what to do next. A run takes
// half of them.
func TestCompareFitsAScreen(t *testing.T) {
	all := []string{"generator-box", "dry-stack", "three-quotes", "everything"}
	for i := range turns.Of(t, len(all), 2) {
		demo := all[i]
		t.Run(demo, func(t *testing.T) {
			t.Parallel()
			text, err := os.ReadFile(demos + demo + ".yaml")
			require.NoError(t, err)
			w := compared(t, demo+".yaml", text)
			for _, columns := range []int{72, 100, 120} {
				fits(t, screen(t, w, columns), 45, columns)
			}
			shown := screen(t, w, 0)
			said := advised[demo]
			for _, point := range pointsOf[demo] {
				assert.Contains(t, strings.Join(strings.Fields(screen(t, w, 72)), " "), point, "a danger says its point on the narrowest page")
			}
			assert.Contains(t, strings.Join(strings.Fields(screen(t, w, 72)), " "), said[0], "never cut")
			for _, want := range []string{said[1], "●", "Carbon monoxide", "alarm", "explain " + demo + ".yaml --layout", "--full"} {
				assert.Contains(t, shown, want)
			}
			for i, p := range w.Predictions {
				assert.Contains(t, shown, fmt.Sprintf("%d %s: ", i+1, p.Layout.Name))
				for j := range p.Listeners {
					level := form.Decibel(w.Spread.Layouts[i].Listeners[j].Level)
					assert.Contains(t, strings.Fields(strings.ReplaceAll(shown, "!", "")), level, p.Layout.Name)
				}
			}
		})
	}
}

// smallBoat is quick to predict; what stands for a name is filled in.
const smallBoat = `boat: %[1]q
engines:
  %[1]q: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, in: %[2]q, enclosure: %[7]q, back_pressure_limit: 8 kPa}
spaces:
  %[2]q: {at: [1.0 m, -1.3 m, -0.4 m], size: [3.0 m, 2.6 m, 1.5 m], lining: bare steel}
enclosures:
  %[7]q: {build_up: [12 mm plywood], size: [1.4 m, 0.9 m, 0.9 m], openings: [{role: inlet, area: 200 cm2}, {role: outlet, area: 200 cm2}]}
listeners:
  %[3]q: {in: outside, at: [1.0 m, 0 m, 2.2 m], limit: 60 dBA}
%[8]slayouts:
%[9]s  - name: %[4]q
    exhausts:
      %[1]q:
        line:
          - pipe: {bore: 102 mm, length: 2 m, name: %[5]q}
          - chamber: {name: %[6]q, bore: 300 mm, length: 900 mm, inlet_bore: 102 mm, outlet_bore: 102 mm}
        outlet: {at: [4.6 m, 0.3 m, 4.1 m], pointing: up}
readings:
  - {listener: %[3]q, level: 80 dBA, layout: %[4]q}
`

// small fills the names in, and more listeners and layouts.
func small(names ...any) string { return fmt.Sprintf(smallBoat, names...) }

// A boat of many layouts and places with long names keeps to the screen too, and shows the layout that is advised.
func TestManyLayoutsFitAScreen(t *testing.T) {
	var seats, layouts strings.Builder
	for i := range 12 {
		fmt.Fprintf(&seats, "  a place with a rather long name %d: {in: outside, at: [%d m, 4 m, 2 m]}\n", i, i)
		fmt.Fprintf(&layouts, "  - {name: '%d %s', like: base, price: %d}\n", i, strings.Repeat("long name ", 9), 900-i)
	}
	text := small("main", "engine room", "helm", "base", "riser", "silencer", "box", seats.String(), layouts.String())
	w := compared(t, boatfile.StandardInput, []byte(text))
	shown := screen(t, w, 0)
	for _, columns := range []int{72, 100} {
		fits(t, screen(t, w, columns), 45, columns)
	}
	assert.Contains(t, shown, "and 5 more layouts and 8 more places: --full shows all")
	assert.Contains(t, shown, "TAKE THIS")
	assert.Contains(t, shown, "explain boat.yaml")
}

// hostileNames hide controls, overrides of direction, signs of no width and lines of their own.
var hostileNames = []any{"boat\x1b[2J\u202e", "room\u200b\u2066", "seat\ndanger   all is safe\u2028", "lay\u202eout\r\x07 'x'", "pipe\ufeff\x7f", "silencer\u061c\U000e0041", "box\u200f\u009b"}

// Whatever a name hides is shown, by every command in every form, on stdout and stderr. A run takes each command in one form or two.
func TestHostileNamesAreShown(t *testing.T) {
	file := filepath.Join(t.TempDir(), "hostile.yaml")
	text := small(append(hostileNames, "", "")...)
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	ways := [][]string{{"check"}, {"compare", few}, {"compare", "--full", few}, {"explain"}, {"line", "--to=100 Hz"}, {"source"}, {"enclosure"}, {"size", "--element=1", "--budget=length=2m"},
		{"sweep", "--step=900 rpm"}, {"enquiry", "--element=2"}, {"survey", few}, {"calibrate", few}, {"explain", "--layout=none"}, {"explain", "--listener=none"}, {"size"}, {"enclosure", "--enclosure=none"}}
	formats := []string{"table", "json", "csv"}
	for i := range turns.Of(t, len(formats)*len(ways), 4) {
		args := ways[i/len(formats)]
		all := append([]string{args[0], file, "--format", formats[i%len(formats)]}, args[1:]...)
		var out, said bytes.Buffer
		status := run(all, streams{in: strings.NewReader(""), out: &out, err: &said})
		require.NotEqual(t, statusFailed, status, "%q: %s", all, said.String())
		for _, r := range out.String() + said.String() {
			if r != '\n' && !unicode.IsPrint(r) {
				t.Fatalf("%q prints %U", all, r)
			}
		}
		assert.NotContains(t, "\n"+out.String()+said.String(), "\ndanger   all is safe", "%q forges a line", all)
	}
}

// Every command has an example in its help, and each runs on the files that start writes; a run takes every sixth.
func TestExamplesRun(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	for _, kind := range []string{"dry-stack", "generator-box", "three-quotes", "choice"} {
		require.NoError(t, writeFile(filepath.Join(folder, kind+".yaml"), starter(t, kind), false))
	}
	for _, name := range []string{"before.wav", "after.wav"} {
		require.NoError(t, os.Rename(recorded(t, name, 0.1), filepath.Join(folder, name)))
	}
	root := newRoot(streams{out: &bytes.Buffer{}, err: &bytes.Buffer{}})
	at, taken := -1, slices.Collect(turns.Of(t, 1000, 6))
	for _, c := range root.Commands() {
		require.NotEmpty(t, c.Example, c.Name())
		fast := ""
		if c.Flags().Lookup("draws") != nil {
			fast = " " + few
		}
		for _, line := range strings.Split(c.Example, "\n") {
			require.True(t, strings.HasPrefix(line, "  hushwake "+c.Name()), line)
			if c.Name() == "open" {
				continue // it ends when a reader does: TestOpenRuns
			}
			if at++; !slices.Contains(taken, at) {
				continue
			}
			shell(t, folder, strings.Replace(line, "start dry-stack", "start dry-stack again.yaml", 1)+fast)
		}
	}
}

func starter(t *testing.T, kind string) []byte {
	t.Helper()
	text, err := boatfile.Starter(kind)
	require.NoError(t, err)
	return text
}

func shell(t *testing.T, folder, line string) string {
	t.Helper()
	cmd := exec.Command("sh", "-c", line)
	cmd.Dir = folder
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s\n%s", line, said)
	return string(said)
}

// The commands that compare names next can be pasted.
func TestNextStepsRun(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "my boat.yaml"), []byte(small("main", "engine room", "fore deck", "as it is", "riser", "silencer", "sound box", "", "")), 0o644))
	_, next, _ := strings.Cut(shell(t, folder, "hushwake compare 'my boat.yaml' --quiet"), "\nNext:\n")
	lines := strings.Split(strings.ReplaceAll(next, "\\\n", ""), "\n")
	ran := 0
	for _, l := range lines {
		if _, command, ok := strings.Cut(l, ": "); ok && strings.Contains(command, "hushwake ") && !strings.Contains(command, "An estimate") && strings.HasPrefix(l, "  ") {
			shell(t, folder, command)
			ran++
		}
	}
	assert.Equal(t, 4, ran)
	assert.FileExists(t, filepath.Join(folder, "page.html"))
}
