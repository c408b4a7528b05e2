package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/jsonschema-go/jsonschema"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/testdata/turns"
)

const demos = "../../testdata/"

// The keys that scripts rely on. [9] is an array of the nine octave bands; NAME stands for any key;
// a question mark means that the whole may be null.
var promised = map[string]string{
	"compare": `{version, boat, bands_hz:[9], layouts:[` + promisedLayout(promisedEar) + `],
		ranking:{LISTENER:[{layout, level_dba, probability_quietest}]},
		tradeoff:[{layout, listener, level_dba, rated_back_pressure_kpa, on_front}],
		assumptions:[{field, value, source}], warnings:[], floor:` + promisedFloor + `, beats:` + promisedBeats + `}`,
	"sweep": `{layouts:[{name, points:[{speed_rpm, power_kw, back_pressure_kpa, listeners:[{name, level_dba}]}],
		booms:[{speed_rpm, order, frequency_hz, text, from_rpm, to_rpm, rise_db}]}]}`,
	"line": `{layout, engine, elements:[` + promisedElement + `], back_pressure_kpa,
		curve:{frequency_hz:[], transmission_loss_db:[], insertion_loss_db:[]}}`,
	"source": `{engines:[{name, firing_frequency_hz, exhaust_bands_db:[9], exhaust_dba, casing_bands_db:[9], casing_dba,
		exhaust_flow_kg_s, exhaust_temperature_c, orders:[{order, frequency_hz, level_db}]}]}`,
	"panel": `{layers:[], surface_mass_kg_m2, bands_hz:[9], transmission_loss_db:[9]}`,
	"enclosure": `{name, insertion_loss_db:[9], insertion_loss_dba, air_flow_m3_s, combustion_air_m3_s, cooling_air_m3_s,
		inlet_area_m2, outlet_area_m2, inlet_area_needed_m2, inlet_velocity_m_s, inlet_pressure_drop_pa, fan_pressure_pa,
		temperature_rise_k, verdicts:[{code, text}], fan_stopped:?{temperature_rise_k, text},
		changes:[{change, insertion_loss_dba}], warnings:[]}`,
	"check": `{errors:[{file, line, column, message, hint}], warnings:[],
		assumptions:[{field, value, source, plus_minus_db}], cautions:[{code, severity, text, action, source}]}`,
	"explain": `{layout, listener, level_dba, routes:[{source, route, level_dba,
		steps:[{name, formula, source, mark, bands_db:[9]}]}]}`,
	"size":   `{layout, element, listener, budget:{}, best:?` + promisedSize + `, front:[` + promisedSize + `]}`,
	"choose": `{layout, listener, budget:{}, tried, pruned, best:?` + promisedChoice + `, front:[` + promisedChoice + `]}`,
	"calibrate": `{terms:[{name, prior, posterior, sd_before, sd_after}],
		residuals:[{reading, measured, predicted, residual, used, reason}],
		before:{layouts:[` + promisedLayout("") + `]}, after:{layouts:[` + promisedLayout("") + `]}}`,
	"verify": `{checks:[{what, source, expected, ours, tolerance, verdict}], passed, failed, not_validated:[]}`,
	"verify --measured": `{rows:[{id, group, seat, measured_dba, low_measured, high_measured, predicted_dba, low_dba, high_dba, inside,
		counted, source}], groups:[{group, n, bias_db, spread_db, inside_share}], inside_share, bias_db, spread_db}`,
	"survey": `{readings:[{order, what, where, how, sd_before, sd_after}],
		acceptance:[{layout, listener, level_dba, low_dba, high_dba}]}`,
	"enquiry": `{markdown}`,
	"listen": `{files:[{name, seconds, sample_rate_hz, warnings:[], speed_rpm, candidates:[{speed_rpm, firing_frequency_hz}], level_dba, bands_db:[9],
		orders:[{order, frequency_hz, level_db}], broadband_db:[9]}], differences:[{from, to, bands_db:[9], dba, orders:[{order, difference_db}]}]}`,
	"help": `{topic, rows:[]}`,
	"passage": `{passages:[{name, hours, layouts:[{name, verdict, places:[{listener, exposure_dba_8h, low_dba, high_dba, leq_24h_dba}],
		fuel_litres, fuel_price}]}], floor:` + promisedFloor + `, beats:` + promisedBeats + `}`,
}

const (
	promisedFloor = `[{listener, level_dba, text, layouts:[{layout, floor_dba, share}], alike:[], masked:[]}]`
	promisedBeats = `[{engines:[], order, frequency_hz, swing_db, text}]`
)

const promisedElement = `{name, kind, pressure_loss_kpa, gas_temperature_c, skin_temperature_c, velocity_m_s, growth_mm}`

const promisedSize = `{dimensions:{}, level_dba, rated_back_pressure_kpa, length_m, price}`

const promisedChoice = `{choice:{SLOT}, level_dba, low_dba, high_dba, rated_back_pressure_kpa, length_m, price, equal_to:[]}`

const promisedEar = `, ear:?{tone:?{frequency_hz, audibility_db, word}, loudness_sone, loudness_phon, beside, times_as_loud, times_by_level, text}`

// promisedLayout is a layout with what is promised of its listeners beside the rest.
func promisedLayout(more string) string {
	return `{name, price, listeners:[{name, level_dba, low_dba, high_dba, bands_db:[9], limit_dba, hours,
	exposure_dba_8h, level_dbc, nr, probability_over_limit,
	speech:{interference_level_db, normal_voice_m, raised_voice_m}, paths:[{source, route, level_dba, bands_db:[9]}]` + more + `}],
	exhausts:[{engine, back_pressure_kpa, rated_back_pressure_kpa, limit_kpa, outlet_temperature_c, outlet_velocity_m_s,
	insertion_loss_db:[9], insertion_loss_dba, elements:[` + promisedElement + `]}], refused, refusals:[{code, text, element}],
	length_m, mass_kg, fits, probability_over_back_pressure, cautions:[{code, text}]}`
}

// shape is a promised form of a JSON value.
type shape struct {
	keys     map[string]*shape // of an object
	item     *shape            // of an array
	list     bool
	nine     bool
	nullable bool
	seen     bool // a value of it was met
}

// parseShape reads the notation of promised.
func parseShape(s string) (*shape, string) {
	s = strings.TrimSpace(s)
	out := &shape{}
	if strings.HasPrefix(s, "?") {
		out.nullable, s = true, s[1:]
	}
	switch {
	case strings.HasPrefix(s, "[9]"):
		out.list, out.nine, s = true, true, s[3:]
	case strings.HasPrefix(s, "[]"):
		out.list, s = true, s[2:]
	case strings.HasPrefix(s, "["):
		out.list = true
		out.item, s = parseShape(s[1:])
		s = strings.TrimPrefix(strings.TrimSpace(s), "]")
	case strings.HasPrefix(s, "{"):
		out.keys = map[string]*shape{}
		for s = strings.TrimSpace(s[1:]); !strings.HasPrefix(s, "}"); s = strings.TrimSpace(strings.TrimPrefix(s, ",")) {
			end := strings.IndexAny(s, ":,}")
			name := strings.TrimSpace(s[:end])
			s = strings.TrimSpace(s[end:])
			out.keys[name] = &shape{nullable: true}
			if strings.HasPrefix(s, ":") {
				out.keys[name], s = parseShape(s[1:])
			}
			s = strings.TrimSpace(s)
		}
		s = s[1:]
	}
	return out, s
}

// check compares a value with the form.
func (s *shape) check(t *testing.T, at string, v any) {
	if v == nil {
		assert.True(t, s.nullable, "%s is null", at)
		return
	}
	s.seen = true
	switch {
	case s.list:
		all, ok := v.([]any)
		require.True(t, ok, "%s is no array", at)
		if s.nine {
			assert.Len(t, all, 9, at)
		}
		for i, x := range all {
			if s.item != nil {
				s.item.check(t, fmt.Sprintf("%s[%d]", at, i), x)
			}
		}
	case s.keys != nil:
		object, ok := v.(map[string]any)
		require.True(t, ok, "%s is no object", at)
		for name, k := range s.keys {
			if name == strings.ToUpper(name) {
				for any, x := range object {
					k.check(t, at+"."+any, x)
				}
				k.seen = true
				continue
			}
			x, ok := object[name]
			if assert.True(t, ok, "%s lacks %s", at, name) {
				k.check(t, at+"."+name, x)
			}
		}
	}
}

// unmet lists the keys that were null or absent in every document.
func (s *shape) unmet(at string) (out []string) {
	if !s.seen {
		return []string{at}
	}
	for name, k := range s.keys {
		out = append(out, k.unmet(at+"."+name)...)
	}
	if s.item != nil {
		out = append(out, s.item.unmet(at+"[]")...)
	}
	return out
}

// printed keeps what a command printed, for all tests that read it.
var printed sync.Map

// document runs a command for its JSON, once, which must keep to its own schema with the version first.
func document(t testing.TB, into any, args ...string) {
	t.Helper()
	args = append(args, "--format", "json", "--quiet")
	key := strings.Join(args, "\n")
	text, ok := printed.Load(key)
	if !ok {
		text = fresh(t, args)
		printed.Store(key, text)
	}
	require.NoError(t, json.Unmarshal(text.([]byte), into))
}

// output runs a command that must succeed and gives what it prints.
func output(t testing.TB, args ...string) string {
	t.Helper()
	var out, said bytes.Buffer
	got := run(args, streams{in: strings.NewReader(""), out: &out, err: &said})
	require.Equal(t, statusDone, got, "%v: %s", args, said.String())
	return out.String()
}

// fresh is the document that a command prints now.
func fresh(t testing.TB, args []string) []byte {
	t.Helper()
	text := []byte(output(t, args...))
	require.True(t, bytes.HasPrefix(text, []byte("{\n  \"schema_version\": 1,\n")), "%v", args)
	name := args[0]
	if slices.Contains(args, "--measured") || slices.Contains(args, "--enclosure") && name == "size" {
		name += map[string]string{"verify": "-measured", "size": "-enclosure"}[name]
	}
	i := slices.IndexFunc(documents, func(d named) bool { return d.name == name })
	require.GreaterOrEqual(t, i, 0, "%s has no schema", name)
	require.NoError(t, valid(t, documents[i], text), "%v", args)
	return text
}

// valid holds a document against a schema as it is printed.
func valid(t testing.TB, d named, document []byte) error {
	t.Helper()
	var s jsonschema.Schema
	require.NoError(t, json.Unmarshal([]byte(output(t, "schema", d.name)), &s))
	r, err := s.Resolve(nil)
	require.NoError(t, err)
	var v any
	require.NoError(t, json.Unmarshal(document, &v))
	return r.Validate(v)
}

// A schema finds what is wrong: a key too many, one that lacks, another version.
func TestSchemasFindWhatIsWrong(t *testing.T) {
	d := named{"enquiry", reflect.TypeFor[enquiryDocument]()}
	assert.NoError(t, valid(t, d, []byte(`{"schema_version": 1, "markdown": "x"}`)))
	for _, wrong := range []string{`{"schema_version": 2, "markdown": "x"}`, `{"markdown": "x"}`, `{"schema_version": 1, "markdown": 3}`, `{"schema_version": 1, "markdown": "x", "more": 1}`} {
		assert.Error(t, valid(t, d, []byte(wrong)), wrong)
	}
}

// Every command but those that print no document has a schema.
func TestEveryDocumentHasASchema(t *testing.T) {
	for _, c := range commands(&common{}) {
		has := slices.ContainsFunc(documents, func(d named) bool { return d.name == c.Name() })
		assert.Equal(t, c.Name() != "start" && c.Name() != "open" && c.Name() != "schema", has, c.Name())
	}
}

// light leaves the readings of a file out unless all is wanted: what they do is tried by calibrate and survey.
func light() string { return fmt.Sprintf("--ignore-readings=%v", !turns.All()) }

// Every key is there in every demo that is tried, also when it is null, and each has a value in one of them.
func TestPromisedKeys(t *testing.T) {
	for command, runs := range map[string][][]string{
		"compare":   {{"generator-box", few}, {"three-quotes", few}, {"everything", few}},
		"sweep":     {{"generator-box", "--layout", "1", "--step", "450 rpm", few}, {"mine", "--layout", "1", "--step", "300 rpm", few}},
		"line":      {{"dry-stack", "--to=400 Hz"}, {"generator-box", "--to=400 Hz"}, {"three-quotes", "--to=400 Hz"}, {"bench"}, {"everything", "--to=100 Hz"}},
		"source":    {{"dry-stack"}, {"generator-box"}, {"three-quotes"}, {"everything"}},
		"enclosure": {{"generator-box", light()}, {"generator-box", "--layout", "smaller lined ducts with a fan", light()}, {"everything", light()}},
		"check":     {{"everything", light()}, {"generator-box", light()}, {"three-quotes", light()}, {"bench"}},
		"explain":   {{"generator-box", "--layout=lined ducts", "--listener=quay", light()}, {"three-quotes", "--layout=as is, holed", "--listener=saloon", light()}},
		"choose":    {{"choice", few}, {"choice", "--listener=helm", "--budget=price=300", few}},
		"calibrate": {{"generator-box", few}, {"three-quotes", few}},
		"survey":    {{"generator-box", few}, {"three-quotes", few}},
		"passage":   {{"generator-box", "--layout", "1", few}, {"everything", "--layout", "2", few}},
		"enquiry":   {{"generator-box", "--element", "7", light()}},
	} {
		if largest := map[string][]string{"compare": {"dry-stack", few}, "sweep": {"dry-stack", "--layout", "1", few},
			"explain": {"dry-stack", "--layout=wet with lift chamber", "--listener=aft cabin", light()}}[command]; turns.All() && largest != nil {
			runs = append(runs, largest)
		}
		t.Run(command, func(t *testing.T) {
			t.Parallel()
			form, rest := parseShape(promised[command])
			require.Empty(t, rest)
			for _, args := range runs {
				var v any
				document(t, &v, append([]string{command, demos + args[0] + ".yaml"}, args[1:]...)...)
				form.check(t, command+" "+args[0], v)
			}
			if command != "check" { // its errors are met by broken files
				// no layout swept here rises and falls by 3 dB; a boom's own keys are met in its package
				unmet := slices.DeleteFunc(form.unmet(command), func(k string) bool { return k == "sweep.layouts[].booms[]" })
				assert.Empty(t, unmet, "never given")
			}
		})
	}
}

func TestPromisedKeysWithoutFile(t *testing.T) {
	for command, args := range map[string][]string{
		"help": {"help", "units"}, "verify": {"verify"}, "verify --measured": {"verify", "--measured", "--samples", "1"}, "panel": {"panel", "4 mm steel", "50 mm mineral wool", "12 mm plywood"},
	} {
		form, _ := parseShape(promised[command])
		var v any
		document(t, &v, args...)
		form.check(t, command, v)
		assert.Empty(t, form.unmet(command))
	}
}

// The errors of a bad file stand in the JSON of check as well as on stderr.
func TestPromisedErrors(t *testing.T) {
	var out, said bytes.Buffer
	got := run([]string{"check", demos + "broken/unknown-key.yaml", "--format", "json"}, streams{out: &out, err: &said})
	assert.Equal(t, statusBadInput, got)
	form, _ := parseShape(promised["check"])
	var v map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &v))
	form.check(t, "check", v)
	assert.Len(t, v["errors"], 1)
	assert.Contains(t, said.String(), "unknown-key.yaml:16:34")
}

// The notation itself: a form must find what is missing.
func TestShapeFindsGaps(t *testing.T) {
	form, rest := parseShape(`{a, b:[{c}], d:[9], e:?{f}}`)
	require.Empty(t, rest)
	require.Len(t, form.keys, 4)
	assert.True(t, form.keys["d"].nine)
	assert.True(t, form.keys["e"].nullable)
	gaps := &testing.T{}
	form.check(gaps, "x", map[string]any{"a": 1.0, "b": []any{map[string]any{}}, "d": []any{}, "e": nil})
	assert.True(t, gaps.Failed())
	assert.ElementsMatch(t, []string{"x.b[].c", "x.e"}, form.unmet("x"))
}
