package report

import (
	"math"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/silencer/safety"
	"hushwake/source/spectrum"
)

// Layout is one alternative.
type Layout struct {
	Name                    string      `json:"name"`
	Price                   form.Number `json:"price"`
	Unpriced                []string    `json:"unpriced"` // what the price leaves out, as nobody stated it
	Listeners               []Listener  `json:"listeners"`
	Exhausts                []Exhaust   `json:"exhausts"`
	Refused                 bool        `json:"refused"`
	Refusals                []Refusal   `json:"refusals"`
	LengthM                 form.Number `json:"length_m"`
	MassKg                  form.Number `json:"mass_kg"`
	Fits                    *bool       `json:"fits"`
	ProbabilityOverPressure form.Number `json:"probability_over_back_pressure"`
	Cautions                []Caution   `json:"cautions"`
	Verdict                 string      `json:"verdict"`   // ok | over limit | ask first | refused
	Questions               []string    `json:"questions"` // to be asked before it can be judged
}

// Listener is what reaches one listener in one layout, at the running duty.
type Listener struct {
	Name                 string        `json:"name"`
	LevelDBA             form.Number   `json:"level_dba"`
	LowDBA               form.Number   `json:"low_dba"`
	HighDBA              form.Number   `json:"high_dba"`
	MedianDBA            form.Number   `json:"median_dba"`
	UncorrectedDBA       form.Number   `json:"uncorrected_dba"` // null without readings
	Bands                []form.Number `json:"bands_db" chart:"spectra against NR curves"`
	LimitDBA             form.Number   `json:"limit_dba"`
	Hours                form.Number   `json:"hours"`
	Exposure             form.Number   `json:"exposure_dba_8h"`
	LevelDBC             form.Number   `json:"level_dbc"`
	NR                   form.Number   `json:"nr"`
	ProbabilityOverLimit form.Number   `json:"probability_over_limit"`
	Speech               Speech        `json:"speech"`
	Paths                []Route       `json:"paths" chart:"what rules each level"`
	Ear                  *Ear          `json:"ear"` // null where nothing compares layouts

	// Of the page alone.
	Quietest form.Number `json:"-"` // probability among the layouts, at this listener
	OnFront  bool        `json:"-"` // no other layout is at least as good in level, back pressure, price and length
	Touches  int         `json:"-"` // index of the octave that sets the noise rating
	Means    []string    `json:"-"` // what one can hear and say there, and for how long it is harmless
}

// Speech is how far a voice carries, m.
type Speech struct {
	Interference form.Number `json:"interference_level_db"`
	Normal       form.Number `json:"normal_voice_m"`
	Raised       form.Number `json:"raised_voice_m"`
}

// Route is one way from a source to the listener.
type Route struct {
	Source   string        `json:"source"`
	Route    string        `json:"route"`
	Way      string        `json:"way"`
	LevelDBA form.Number   `json:"level_dba"`
	Bands    []form.Number `json:"bands_db"`
}

// Exhaust is one engine's line in a layout.
type Exhaust struct {
	Engine               string          `json:"engine"`
	BackPressure         form.Number     `json:"back_pressure_kpa"`
	RatedBackPressure    form.Number     `json:"rated_back_pressure_kpa" chart:"level against rated back pressure"`
	Limit                form.Number     `json:"limit_kpa"`
	OutletTemperature    form.Number     `json:"outlet_temperature_c"`
	OutletVelocity       form.Number     `json:"outlet_velocity_m_s"`
	InsertionLoss        []form.Number   `json:"insertion_loss_db"`
	InsertionLossDBA     form.Number     `json:"insertion_loss_dba"`
	Elements             []parts.Element `json:"elements"`
	RatedLow             form.Number     `json:"rated_back_pressure_low_kpa"`
	RatedHigh            form.Number     `json:"rated_back_pressure_high_kpa"`
	ProbabilityOverLimit form.Number     `json:"probability_over_limit"`

	// Of the page alone.
	Loss  Loss    `json:"-" chart:"loss of the line over frequency"`
	Along []Along `json:"-" chart:"back pressure and temperature along the line"` // manifold to outlet
}

// Refusal is why a layout is refused.
type Refusal struct {
	Code    string  `json:"code"`
	Text    string  `json:"text"`
	Element *string `json:"element"`
}

// Caution is a danger in plain words.
type Caution struct {
	Code     string `json:"code"`
	Text     string `json:"text"`
	Severity string `json:"severity"`
	Action   string `json:"action"`
	Source   string `json:"source"`

	Places []int `json:"-"` // on the page: of the layouts it concerns, none = all
}

// LayoutsOf turns predictions with their spread into the layouts of compare and calibrate.
func LayoutsOf(ps []path.Prediction, s draws.Spread) []Layout {
	out := make([]Layout, len(ps))
	for i := range ps {
		out[i] = newLayout(&ps[i], s.Layouts[i])
	}
	return out
}

func newLayout(p *path.Prediction, s draws.LayoutSpread) Layout {
	d := Layout{
		Name: p.Layout.Name, Price: form.NumOr(p.Layout.Price, 1), Unpriced: form.List(p.Layout.Unpriced), Refused: p.Refused, Refusals: []Refusal{},
		LengthM: form.NumOr(p.Length, 1), MassKg: form.NumOr(p.Mass, 1), Fits: p.Fits,
		ProbabilityOverPressure: form.NumOr(s.OverBackPressure, 1), Cautions: []Caution{},
		Listeners: []Listener{}, Exhausts: []Exhaust{}, Questions: []string{},
	}
	if d.Verdict = VerdictOK; p.Refused {
		d.Verdict = VerdictRefused
	}
	for i := range p.Listeners {
		d.Listeners = append(d.Listeners, newListener(&p.Listeners[i], s.Listeners[i]))
	}
	for i := range p.Exhausts {
		d.Exhausts = append(d.Exhausts, newExhaust(&p.Exhausts[i], s.Exhausts[i]))
	}
	for _, f := range p.Findings {
		if f.Refuse {
			d.Refusals = append(d.Refusals, Refusal{f.Code, f.Text, textOr(f.Element)})
			continue
		}
		d.Cautions = append(d.Cautions, newCaution(f))
	}
	return d
}

func newCaution(f safety.Finding) Caution {
	return Caution{Code: f.Code, Text: f.Text, Severity: f.Severity, Action: f.Action, Source: f.Source}
}

func textOr(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func newListener(h *path.Heard, s draws.LevelSpread) Listener {
	d := Listener{
		Name: h.Listener.Name, LevelDBA: form.Level(s.Level), LowDBA: form.Level(s.Low), HighDBA: form.Level(s.High),
		MedianDBA: form.Level(s.Level), Bands: form.BandLevels(h.Bands), LimitDBA: form.NumOr(h.Listener.Limit, 1), LevelDBC: form.Level(h.Bands.DBC()),
		ProbabilityOverLimit: form.NumOr(s.OverLimit, 1), Paths: routesOf(h),
	}
	if math.IsNaN(s.Level) { // it can't be judged: the span of its sheet is all there is
		d.LevelDBC, d.Bands, d.Paths = nil, make([]form.Number, spectrum.N), []Route{}
		return d
	}
	if h.DBA() > 0 {
		nr, at := spectrum.NR(h.Bands)
		d.NR, d.Touches = form.Num(nr), at
	}
	if h.Listener.Hours > 0 {
		d.Hours = form.Num(h.Listener.Hours)
		d.Exposure = form.Level(spectrum.Exposure8h(s.Level, h.Listener.Hours))
	}
	d.Speech = newSpeech(h.Bands)
	return d
}

// routesOf are the routes to a listener.
func routesOf(h *path.Heard) []Route {
	return form.Each(h.Routes, func(r path.Route) Route {
		return Route{r.Source, r.Route, string(r.Way), form.Level(r.DBA()), form.BandLevels(r.Bands)}
	})
}

func newSpeech(b spectrum.Bands) Speech {
	sil := spectrum.PSIL(b)
	if sil <= spectrum.Silent/2 {
		return Speech{}
	}
	return Speech{form.Level(sil), form.Num(spectrum.TalkDistance(b, spectrum.NormalVoice)), form.Num(spectrum.TalkDistance(b, spectrum.RaisedVoice))}
}

func newExhaust(r *path.ExhaustResult, s draws.PressureSpread) Exhaust {
	d := Exhaust{
		Engine: r.Engine, BackPressure: form.Kilopascal(r.Running.BackPressure), RatedBackPressure: form.Kilopascal(s.Rated),
		Limit: form.NumOr(r.Limit, 1e-3), OutletTemperature: form.Celsius(r.Running.OutletTemperature),
		OutletVelocity: form.Num(r.Running.OutletVelocity), InsertionLoss: form.BandValues(r.Acoustics.InsertionLoss),
		InsertionLossDBA: form.Num(r.InsertionDBA), Elements: parts.ElementsOf(r.Running),
		RatedLow: form.Kilopascal(s.Low), RatedHigh: form.Kilopascal(s.High), ProbabilityOverLimit: form.NumOr(s.OverLimit, 1),
	}
	return d
}
