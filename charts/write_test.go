package charts

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report"
)

func written(t testing.TB, r *report.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, r))
	return b.Bytes()
}

// The npm package echarts 6.1.0, dist/echarts.common.min.js, as published by its makers: lines, points, bars and what goes with them.
func TestLibraryIsThePublishedOne(t *testing.T) {
	sum := sha256.Sum256([]byte(unpacked()))
	assert.Equal(t, "61f13280aba3161f77fc801bf5f9c786f55f10432153a0683fc5cc0700b013d5", hex.EncodeToString(sum[:]))
	for name, part := range map[string]string{"LICENSE": "Apache License", "NOTICE": "Apache ECharts", "LICENSE-d3": "Mike Bostock"} {
		b, err := os.ReadFile("assets/" + name)
		require.NoError(t, err)
		assert.Contains(t, string(b), part)
	}
}

func TestSameReportSameBytes(t *testing.T) {
	first := written(t, full())
	for range 3 {
		assert.True(t, bytes.Equal(first, written(t, full())), "the page must not depend on anything but the report")
	}
}

func TestLargestPageIsSmallEnough(t *testing.T) {
	n := len(written(t, full()))
	t.Logf("%d bytes", n)
	assert.Less(t, n, 1_600_000)
}

// pageOrder is what every page keeps to; quotes and enclosure only where there are any.
var pageOrder = []string{"answer", "boat", "places", "ways", "steps", "helps", "questions", "yard", "quotes", "enclosure", "speed", "tradeoff", "spectra", "loss",
	"assumed", "verified", "cautions"}

func TestOrderOfThePage(t *testing.T) {
	page := string(written(t, full()))
	last := -1
	for _, id := range pageOrder {
		at := strings.Index(page, `<section id="`+id+`"`)
		require.Greater(t, at, last, "section %s", id)
		last = at
	}
}

// numbers calls f on every float64 of the report, wherever it stands.
func numbers(v reflect.Value, path string, f func(path string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Float64:
		f(path, v)
	case reflect.Pointer:
		if !v.IsNil() {
			numbers(v.Elem(), path, f)
		}
	case reflect.Slice, reflect.Array:
		if v.Len() > 0 { // one of each list is enough
			numbers(v.Index(v.Len()-1), path+"[]", f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			numbers(v.Field(i), path+"."+v.Type().Field(i).Name, f)
		}
	}
}

func TestNoNumberMayBeNaNOrInfinite(t *testing.T) {
	r := medium()
	n := 0
	numbers(reflect.ValueOf(r), "", func(path string, v reflect.Value) {
		good := v.Float()
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			v.SetFloat(bad)
			var b bytes.Buffer
			err := Write(&b, r)
			if assert.Error(t, err, path) {
				assert.Contains(t, err.Error(), "chart", path)
			}
			assert.Zero(t, b.Len(), "nothing is written of a report that is in error")
			n++
		}
		v.SetFloat(good)
	})
	assert.Greater(t, n, 100, "the walk must have found the numbers")
	require.NoError(t, Write(io.Discard, r))
}

func TestErrorNamesTheChart(t *testing.T) {
	nan := math.NaN()
	for chart, spoil := range map[string]func(*report.Page){
		"levels at each listener":                      func(r *report.Page) { r.Layouts[1].Heard[0].LowDBA = &nan },
		"level against rated back pressure":            func(r *report.Page) { r.Layouts[0].Exhausts[0].RatedBackPressure = &nan },
		"what rules each level":                        func(r *report.Page) { r.Layouts[0].Heard[0].Paths[2].LevelDBA = &nan },
		"chain from source to ear":                     func(r *report.Page) { r.Chains[0].Links[0].Bands[3] = &nan },
		"spectra against NR curves":                    func(r *report.Page) { r.Layouts[0].Heard[0].Bands[0] = &nan },
		"loss of the line over frequency":              func(r *report.Page) { r.Layouts[0].Exhausts[0].Loss.InsertionDB[7] = &nan },
		"back pressure and temperature along the line": func(r *report.Page) { r.Layouts[0].Exhausts[0].Along[0].GasC = &nan },
		"over engine speed":                            func(r *report.Page) { r.Sweeps[0].Points[0].SpeedRPM = nan },
		"price and space":                              func(r *report.Page) { r.Layouts[2].Price = &nan },
		"offers":                                       func(r *report.Page) { r.Offers[0].HotKPa = &nan },
		"enclosure":                                    func(r *report.Page) { r.Enclosures[0].Rise = &nan },
	} {
		r := medium()
		spoil(r)
		err := Write(io.Discard, r)
		if assert.Error(t, err, chart) {
			assert.Contains(t, err.Error(), `"`+chart+`"`)
			assert.Contains(t, err.Error(), "NaN")
		}
	}
}

func TestFaultyReportsAreErrors(t *testing.T) {
	for name, spoil := range map[string]func(*report.Page){
		"no layout":              func(r *report.Page) { r.Layouts = nil },
		"no answer":              func(r *report.Page) { r.Advice = nil },
		"too few listeners":      func(r *report.Page) { r.Layouts[0].Heard = r.Layouts[0].Heard[:1] },
		"band missing":           func(r *report.Page) { r.Layouts[0].Heard[0].Bands = ptrs(1, 2) },
		"band at 0 Hz":           func(r *report.Page) { r.BandsHz[0] = 0 },
		"low above high":         func(r *report.Page) { r.Layouts[0].Heard[0].LowDBA = f64(200) },
		"low pressure over high": func(r *report.Page) { r.Layouts[0].Exhausts[0].RatedLow = f64(99) },
		"loss of two lengths":    func(r *report.Page) { r.Layouts[0].Exhausts[0].Loss.InsertionDB = ptrs(1) },
		"frequency at 0":         func(r *report.Page) { r.Layouts[0].Exhausts[0].Loss.FrequencyHz[0] = 0 },
		"chain to nowhere":       func(r *report.Page) { r.Chains[0].Listener = 9 },
		"sweep of nothing":       func(r *report.Page) { r.Sweeps[0].Layout = -1 },
		"sweep without levels":   func(r *report.Page) { r.Sweeps[0].Points[0].LevelDBA = nil },
		"boom at no listener":    func(r *report.Page) { r.Sweeps[0].Booms[0].Listener = 2 },
		"offer for no layout":    func(r *report.Page) { r.Offers[0].Layout = 8 },
		"advice of no layout":    func(r *report.Page) { r.Chosen = 3 },
		"today is no layout":     func(r *report.Page) { r.Today = -2 },
		"answer at no listener":  func(r *report.Page) { r.Main = 2 },
		"help for too few":       func(r *report.Page) { r.Helps.Changes[0].DB = nil },
		"measured nowhere":       func(r *report.Page) { r.Measure[0].Listener = 5 },
		"pictures of others":     func(r *report.Page) { r.Pictures = r.Pictures[1:] },
		"bands of others":        func(r *report.Page) { r.Pictures[0].Bands = nil },
		"reading at no listener": func(r *report.Page) { r.Offers[1].Acceptance[0].Listener = -1 },
	} {
		r := medium()
		spoil(r)
		assert.Error(t, Write(io.Discard, r), name)
	}
	assert.Error(t, Write(io.Discard, nil))
}

func BenchmarkWriteLargest(b *testing.B) {
	r := full()
	for b.Loop() {
		if err := Write(io.Discard, r); err != nil {
			b.Fatal(err)
		}
	}
}
