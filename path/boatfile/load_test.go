package boatfile

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/scene"
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/said"
	"hushwake/testdata"
	"hushwake/testdata/broken"
)

const data = "../../testdata/"

func load(t testing.TB, name string) *path.Boat {
	t.Helper()
	b, err := LoadFile(data + name + ".yaml")
	require.NoError(t, err)
	return b
}

// layout finds one of a boat's layouts.
func layout(t testing.TB, b *path.Boat, name string) *path.Layout {
	t.Helper()
	for _, l := range b.Layouts {
		if l.Name == name {
			return l
		}
	}
	t.Fatalf("no layout %q", name)
	return nil
}

func TestDemosAndStarters(t *testing.T) {
	for _, kind := range []string{"dry-stack", "generator-box", "three-quotes"} {
		text, err := Starter(kind)
		require.NoError(t, err)
		b, err := Load(kind+".yaml", text)
		require.NoError(t, err)
		assert.Contains(t, string(text), "invention", "a demo says that its data are invented")
		assert.GreaterOrEqual(t, len(b.Layouts), 5)
		assert.NotEmpty(t, b.Readings)
		session := scene.NewSession(b)
		for _, l := range b.Layouts {
			assert.Len(t, l.Exhausts, len(l.Engines), l.Name)
			p, err := session.Predict(l, path.Routes)
			require.NoError(t, err, l.Name)
			for _, h := range p.Listeners {
				assert.Greater(t, h.DBA(), 25.0, "%s at %s", l.Name, h.Listener.Name)
				assert.Less(t, h.DBA(), 125.0, "%s at %s", l.Name, h.Listener.Name)
			}
		}
	}
	_, err := Starter("dry-stak")
	assert.ErrorContains(t, err, `did you mean "dry-stack"?`)
}

// The exercises of the dry-stack demo: 506 mm over the lagging in 510 mm clear must not fit, 456 mm
// leaves 27 mm on each side, and the limit is the owner's 3 inHg.
func TestDryStackExercises(t *testing.T) {
	b := load(t, "dry-stack")
	limit := b.Layouts[0].Engines[0].Limit
	require.NotNil(t, limit)
	assert.InDelta(t, 10159, *limit, 1)
	for name, over := range map[string]float64{"reactive 406 mm in the trunk": 0.506, "reactive 356 mm in the trunk": 0.456} {
		for _, e := range layout(t, b, name).Exhausts[0].Line.Elements {
			if c, ok := e.(*silencer.Chamber); ok {
				assert.InDelta(t, over, c.Bore+2*c.Wall+2*c.Lagging.Thickness, 1e-9)
				assert.Equal(t, 0.51, c.Envelope[0])
			}
		}
	}
	door := func(l *path.Layout) float64 {
		for _, p := range l.Partitions {
			if p.Name == "wheelhouse door" {
				return p.OpenArea
			}
		}
		return math.NaN()
	}
	assert.Equal(t, 1.0, door(layout(t, b, "as found, door open")), "changes reach their layout")
	assert.Equal(t, 0.005, door(layout(t, b, "as found")), "and no other")
}

func TestGeneratorBoxChanges(t *testing.T) {
	b := load(t, "generator-box")
	box := func(name string) path.Enclosure { return layout(t, b, name).Enclosures[0] }
	assert.Len(t, box("as is").Openings, 1)
	assert.Len(t, box("two bare holes").Openings, 2)
	assert.InDelta(t, 0.06, box("two bare holes").Openings[1].Area, 1e-12)
	assert.Equal(t, 1, box("lined ducts").Openings[0].Duct.Bends)
	assert.InDelta(t, 0.2, box("smaller lined ducts with a fan").Fan.Flow, 1e-12)
	assert.Empty(t, box("tight box, water-cooled").Openings)
	assert.True(t, box("tight box, water-cooled").OwnAirPipe)
	assert.True(t, layout(t, b, "tight box, water-cooled").Engines[0].Generator.WaterCooled)
	assert.False(t, layout(t, b, "as is").Engines[0].Generator.WaterCooled)
	assert.Len(t, box("heavier mat, ducts and fan").BuildUp, 3)
}

func TestThreeQuotes(t *testing.T) {
	b := load(t, "three-quotes")
	a := layout(t, b, "new silencer + offer A")
	assert.Equal(t, []string{"offer A"}, a.Quotes)
	assert.Equal(t, 650.0+1190, *a.Price)
	assert.Equal(t, 650.0+1760+480+1600, *layout(t, b, "new silencer + offer C").Price, "known extras count")
	given := func(l *path.Layout) *silencer.Given {
		for _, e := range l.Exhausts[0].Line.Elements {
			if g, ok := e.(*silencer.Given); ok {
				return g
			}
		}
		return nil
	}
	g := given(a)
	require.NotNil(t, g)
	assert.Equal(t, silencer.BasisUnknown, g.Loss.Basis)
	assert.Nil(t, g.InsertionLoss)
	assert.Nil(t, g.Overall)
	bb := given(layout(t, b, "new silencer + offer B"))
	assert.Equal(t, silencer.BasisEqualVolume, bb.Loss.Basis)
	assert.InDelta(t, 31.0/60, bb.Loss.VolumeFlow, 1e-9)
	assert.Equal(t, 20.0, bb.InsertionLoss[2])
	c := given(layout(t, b, "new silencer + offer C"))
	assert.Equal(t, silencer.BasisHot, c.Loss.Basis)
	assert.Equal(t, 82.0, *c.AtLevel)
	assert.InDelta(t, math.Pi/2, c.AtAngle, 1e-12)
	assert.InDelta(t, 0.457, c.Diameter, 1e-12)
}

// Every broken file gives the text in the .want file beside it: place, message, line, caret, hint.
func TestBrokenFiles(t *testing.T) {
	files, err := filepath.Glob(data + "broken/*.yaml")
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(files), 30)
	for _, f := range files {
		name := filepath.Base(f)
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(f)
			require.NoError(t, err)
			want, err := os.ReadFile(strings.TrimSuffix(f, ".yaml") + ".want")
			require.NoError(t, err)
			b, err := Load(name, text)
			assert.Nil(t, b)
			var list *decode.Errors
			require.True(t, errors.As(err, &list), "%v", err)
			assert.Regexp(t, "^"+broken.Want(string(want)).String()+"$", err.Error()+"\n")
			for i, p := range list.Problems {
				assert.NotEmpty(t, p.Message)
				assert.Equal(t, name, p.File)
				if i > 0 {
					assert.LessOrEqual(t, list.Problems[i-1].Line, p.Line, "sorted by line")
				}
			}
		})
	}
}

func TestHugeFile(t *testing.T) {
	huge := filepath.Join(t.TempDir(), "huge.yaml")
	require.NoError(t, os.WriteFile(huge, []byte("boat: "+strings.Repeat("x", decode.MaxBytes)), 0o600))
	_, err := LoadFile(huge)
	assert.ErrorContains(t, err, "1048576 at most")
}

func TestMissingFile(t *testing.T) {
	_, err := LoadFile(filepath.Join(t.TempDir(), "none.yaml"))
	assert.ErrorIs(t, err, os.ErrNotExist)
	assert.ErrorContains(t, err, "hint:")
	_, err = LoadFile(t.TempDir())
	assert.Error(t, err)
}

func TestEverythingIsDecoded(t *testing.T) {
	b := load(t, "everything")
	main := b.Layouts[0].Engines[0]
	assert.Equal(t, source.TwoStroke, main.Stroke)
	assert.Equal(t, source.Vee, main.Arrangement)
	assert.InDelta(t, 141683, main.Rated.Power, 1)
	assert.Equal(t, []int{1, 4, 2, 5, 3, 6}, main.FiringOrder)
	assert.Equal(t, 103.0, main.CasingLevel[2])
	assert.InDelta(t, 250e-3/3.6e6, main.FuelConsumption, 1e-12)
	assert.True(t, b.Layouts[0].Engines[2].Stopped)
	assert.Equal(t, source.ConstantSpeed, b.Layouts[0].Engines[1].Load, "a generator runs at constant speed")
	kinds := map[string]bool{}
	for _, l := range b.Layouts {
		for _, x := range l.Exhausts {
			for _, e := range x.Line.Elements {
				kinds[e.Kind()] = true
			}
		}
	}
	for _, k := range lines.Kinds() {
		if k != "quote" && k != "one_of" && k != "slot" {
			assert.True(t, kinds[k], k)
		}
	}
	chamber := b.Layouts[0].Exhausts[0].Line.Elements[4].(*silencer.Chamber)
	assert.Len(t, chamber.JoinedBy, 2)
	assert.Len(t, chamber.JoinedBy[1], 2)
	assert.Equal(t, 0.15, chamber.JoinedBy[0][0].After)
	wet := layout(t, b, "wet + offer B + offer A")
	assert.Equal(t, 1500.0, wet.Engines[0].Running.Speed)
	assert.InDelta(t, 80e3, wet.Engines[0].Running.Power, 1e-6, "a change merges; what it doesn't name stays")
	assert.Equal(t, "locker - outside", wet.Partitions[3].Name, "those of the list first, then the faces")
	assert.InDelta(t, 0.018, wet.Partitions[0].BuildUp[0].Thickness, 1e-12, "found by its two sides in either order")
	assert.Nil(t, wet.Enclosures[0].Fan)
	assert.NotNil(t, b.Layouts[0].Enclosures[0].Fan)
}

func TestBench(t *testing.T) {
	b := load(t, "bench")
	require.NotNil(t, b.Bench)
	assert.Equal(t, 343.0, b.Bench.Gas.SoundSpeed)
	assert.Equal(t, "lossless", b.Bench.Walls)
	assert.Equal(t, "modes", b.Bench.Method)
	x := b.Layouts[0].Exhausts[0]
	assert.Equal(t, "bench", x.Engine)
	assert.False(t, x.Line.Outlet.Present)
	_, err := Load("b", []byte("bench: {gas: stated}\nlayouts: [{name: a, exhausts: {bench: {line: [pipe: {bore: 100 mm, length: 1 m}]}}}]\n"))
	assert.ErrorContains(t, err, `lacks "speed_of_sound"`)
	assert.ErrorContains(t, err, `lacks "density"`)
}

// The least that a file may hold: everything else is filled in and listed with its source.
func TestLeastFile(t *testing.T) {
	b, err := Load("least.yaml", []byte(`
engines: {main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, displacement: unknown}}
listeners: {helm: {at: [5 m, 0 m, 2.4 m], hours: don't know}}
layouts:
  - exhausts:
      main:
        line: [pipe: {bore: 60 mm, length: 3 m}, chamber: {}, perforated: {}, lift_chamber: unknown, water_injection: {flow: ?}]
        outlet: {at: [0 m, 0 m, 0.5 m]}
`))
	require.NoError(t, err)
	fields := ""
	for _, a := range b.Assumptions {
		assert.NotEmpty(t, a.Source, a.Field)
		assert.NotEmpty(t, a.Value, a.Field)
		assert.GreaterOrEqual(t, a.PlusMinusDB, 0.0)
		fields += a.Field + "\n"
	}
	for _, want := range []string{"engines.main in", "engines.main at", "listeners.helm in", "outlet pointing", "bore of chamber 2", "length of chamber 2", "porosity of perforated 3", "flow of water_injection 5", "water_level of lift_chamber 4", "weather.air", "heel"} {
		assert.Contains(t, fields, want)
	}
	c := b.Layouts[0].Exhausts[0].Line.Elements[1].(*silencer.Chamber)
	assert.InDelta(t, 0.18, c.Bore, 1e-12)
	assert.Equal(t, path.Outside, b.Listeners[0].In)
}

func TestWarningsOfTheFile(t *testing.T) {
	base := "listeners: {helm: {in: outside, at: [5 m, 0 m, 2 m]}}\nlayouts: [{name: a, exhausts: {main: {line: [pipe: {bore: 60 mm, length: 3 m}], outlet: {at: [0 m, 0 m, 1 m], pointing: aft}}}}]\nengines: {main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, in: outside, %}}\n"
	for extra, say := range map[string]string{
		"back_pressure_limit: 40 inHg":                       "13.6 inH2O",
		"back_pressure_limit: 3 inH2O":                       "was inHg meant",
		"exhaust: {temperature: 900 °C}":                     "hotter than exhaust usually is",
		"fuel_consumption: 650 g/kWh":                        "190 to 400 g/kWh",
		"exhaust: {temperature: 480 °C}, enclosure: unknown": "",
	} {
		b, err := Load("w", []byte(strings.Replace(base, "%", extra, 1)))
		require.NoError(t, err, extra)
		all := said.Plain(strings.Join(b.Warnings, "\n"))
		if say == "" {
			assert.NotContains(t, all, "hotter")
			continue
		}
		assert.Contains(t, all, say, extra)
	}
}

// A stray key anywhere in a file that holds every key is an error at its own place.
func TestStrayKeyAnywhere(t *testing.T) {
	text, err := testdata.Files.ReadFile("everything.yaml")
	require.NoError(t, err)
	for i, c := range string(text) {
		if c != '{' || strings.Contains(lineAt(string(text), i), "#") {
			continue
		}
		broken := string(text[:i+1]) + "zzz: 1, " + string(text[i+1:])
		b, err := Load("stray", []byte(broken))
		assert.Nil(t, b)
		if assert.Error(t, err, lineAt(broken, i)) {
			assert.Contains(t, err.Error(), "zzz", lineAt(broken, i))
		}
	}
}

func lineAt(s string, i int) string {
	from := strings.LastIndex(s[:i], "\n") + 1
	line, _, _ := strings.Cut(s[from:], "\n")
	return line
}

func FuzzLoad(f *testing.F) {
	for _, name := range []string{"everything", "dry-stack", "bench"} {
		text, err := os.ReadFile(data + name + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	broken, _ := filepath.Glob(data + "broken/*.yaml")
	for _, b := range broken {
		text, _ := os.ReadFile(b)
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := Load("fuzz", text)
		if err == nil && b == nil {
			t.Fatal("neither boat nor error")
		}
		if err != nil && err.Error() == "" {
			t.Fatal("an error without a text")
		}
	})
}

func BenchmarkLoad(b *testing.B) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(b, err)
	for b.Loop() {
		if _, err := Load("dry-stack.yaml", text); err != nil {
			b.Fatal(err)
		}
	}
}
