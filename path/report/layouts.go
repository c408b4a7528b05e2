package report

import (
	"hushwake/path"
	"hushwake/path/study"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Layout is one alternative.
type Layout struct {
	Name                    string     `json:"name"`
	Price                   Number     `json:"price"`
	Listeners               []Listener `json:"listeners"`
	Exhausts                []Exhaust  `json:"exhausts"`
	Refused                 bool       `json:"refused"`
	Refusals                []Refusal  `json:"refusals"`
	LengthM                 Number     `json:"length_m"`
	MassKg                  Number     `json:"mass_kg"`
	Fits                    *bool      `json:"fits"`
	ProbabilityOverPressure Number     `json:"probability_over_back_pressure"`
	Cautions                []Caution  `json:"cautions"`
}

// Listener is what reaches one listener in one layout, at the running duty.
type Listener struct {
	Name                 string   `json:"name"`
	LevelDBA             Number   `json:"level_dba"`
	LowDBA               Number   `json:"low_dba"`
	HighDBA              Number   `json:"high_dba"`
	MedianDBA            Number   `json:"median_dba"`
	Bands                []Number `json:"bands_db" chart:"spectra against NR curves"`
	LimitDBA             Number   `json:"limit_dba"`
	Hours                Number   `json:"hours"`
	Exposure             Number   `json:"exposure_dba_8h"`
	LevelDBC             Number   `json:"level_dbc"`
	NR                   Number   `json:"nr"`
	ProbabilityOverLimit Number   `json:"probability_over_limit"`
	Speech               Speech   `json:"speech"`
	Paths                []Route  `json:"paths" chart:"what rules each level"`

	// Of the page alone.
	Quietest Number `json:"-"` // probability among the layouts, at this listener
	OnFront  bool   `json:"-"` // no other layout is at least as good in level, back pressure, price and length
	Means    string `json:"-"` // what one can hear and say there, and for how long it is harmless
}

// Speech is how far a voice carries, m.
type Speech struct {
	Interference Number `json:"interference_level_db"`
	Normal       Number `json:"normal_voice_m"`
	Raised       Number `json:"raised_voice_m"`
}

// Route is one way from a source to the listener.
type Route struct {
	Source   string   `json:"source"`
	Route    string   `json:"route"`
	LevelDBA Number   `json:"level_dba"`
	Bands    []Number `json:"bands_db"`
}

// Exhaust is one engine's line in a layout.
type Exhaust struct {
	Engine               string    `json:"engine"`
	BackPressure         Number    `json:"back_pressure_kpa"`
	RatedBackPressure    Number    `json:"rated_back_pressure_kpa" chart:"level against rated back pressure"`
	Limit                Number    `json:"limit_kpa"`
	OutletTemperature    Number    `json:"outlet_temperature_c"`
	OutletVelocity       Number    `json:"outlet_velocity_m_s"`
	InsertionLoss        []Number  `json:"insertion_loss_db"`
	InsertionLossDBA     Number    `json:"insertion_loss_dba"`
	Elements             []Element `json:"elements"`
	RatedLow             Number    `json:"rated_back_pressure_low_kpa"`
	RatedHigh            Number    `json:"rated_back_pressure_high_kpa"`
	ProbabilityOverLimit Number    `json:"probability_over_limit"`

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

// layoutsOf turns predictions with their spread into the layouts of compare and calibrate.
func layoutsOf(ps []path.Prediction, s study.Spread) []Layout {
	out := make([]Layout, len(ps))
	for i := range ps {
		out[i] = newLayout(&ps[i], s.Layouts[i])
	}
	return out
}

func newLayout(p *path.Prediction, s study.LayoutSpread) Layout {
	d := Layout{
		Name: p.Layout.Name, Price: numOr(p.Layout.Price, 1), Refused: p.Refused, Refusals: []Refusal{},
		LengthM: numOr(p.Length, 1), MassKg: numOr(p.Mass, 1), Fits: p.Fits,
		ProbabilityOverPressure: numOr(s.OverBackPressure, 1), Cautions: []Caution{},
		Listeners: []Listener{}, Exhausts: []Exhaust{},
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

func newCaution(f silencer.Finding) Caution {
	return Caution{Code: f.Code, Text: f.Text, Severity: f.Severity, Action: f.Action, Source: f.Source}
}

func textOr(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func newListener(h *path.Heard, s study.LevelSpread) Listener {
	d := Listener{
		Name: h.Listener.Name, LevelDBA: level(s.Level), LowDBA: level(s.Low), HighDBA: level(s.High),
		MedianDBA: level(s.Median), Bands: bandLevels(h.Bands), LimitDBA: numOr(h.Listener.Limit, 1), LevelDBC: level(h.Bands.DBC()),
		ProbabilityOverLimit: numOr(s.OverLimit, 1), Paths: routesOf(h),
	}
	if h.DBA() > 0 {
		nr, _ := spectrum.NR(h.Bands)
		d.NR = num(nr)
	}
	if h.Listener.Hours > 0 {
		d.Hours = num(h.Listener.Hours)
		d.Exposure = level(spectrum.Exposure8h(s.Level, h.Listener.Hours))
	}
	d.Speech = newSpeech(h.Bands)
	return d
}

// routesOf are the routes to a listener.
func routesOf(h *path.Heard) []Route {
	return each(h.Routes, func(r path.Route) Route { return Route{r.Source, r.Route, level(r.DBA()), bandLevels(r.Bands)} })
}

func newSpeech(b spectrum.Bands) Speech {
	sil := spectrum.PSIL(b)
	if sil <= spectrum.Silent/2 {
		return Speech{}
	}
	return Speech{level(sil), num(spectrum.TalkDistance(sil, spectrum.NormalVoice)), num(spectrum.TalkDistance(sil, spectrum.RaisedVoice))}
}

func newExhaust(r *path.ExhaustResult, s study.PressureSpread) Exhaust {
	d := Exhaust{
		Engine: r.Engine, BackPressure: kilopascal(r.Running.BackPressure), RatedBackPressure: kilopascal(s.Rated),
		Limit: numOr(r.Limit, 1e-3), OutletTemperature: celsius(r.Running.OutletTemperature),
		OutletVelocity: num(r.Running.OutletVelocity), InsertionLoss: bandValues(r.Acoustics.InsertionLoss),
		InsertionLossDBA: num(r.InsertionDBA), Elements: elementsOf(r.Running),
		RatedLow: kilopascal(s.Low), RatedHigh: kilopascal(s.High), ProbabilityOverLimit: numOr(s.OverLimit, 1),
	}
	return d
}
