package parts

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/room"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// Enclosure is a box round an engine.
type Enclosure struct {
	Name             string        `json:"name"`
	Layout           string        `json:"layout"`
	Engine           string        `json:"engine"`
	InsertionLoss    []form.Number `json:"insertion_loss_db"`
	InsertionLossDBA form.Number   `json:"insertion_loss_dba"`
	AirFlow          form.Number   `json:"air_flow_m3_s"`
	Combustion       form.Number   `json:"combustion_air_m3_s"`
	Cooling          form.Number   `json:"cooling_air_m3_s"`
	InletArea        form.Number   `json:"inlet_area_m2"`
	OutletArea       form.Number   `json:"outlet_area_m2"`
	InletNeeded      form.Number   `json:"inlet_area_needed_m2"`
	OutletNeeded     form.Number   `json:"outlet_area_needed_m2"`
	InletVelocity    form.Number   `json:"inlet_velocity_m_s"`
	InletDrop        form.Number   `json:"inlet_pressure_drop_pa"`
	FanPressure      form.Number   `json:"fan_pressure_pa"`
	Rise             form.Number   `json:"temperature_rise_k"`
	RunningRise      form.Number   `json:"temperature_rise_running_k"`
	TemperatureC     form.Number   `json:"temperature_c"`
	RunningC         form.Number   `json:"temperature_running_c"`
	LimitC           form.Number   `json:"limit_c"`
	LimitWhy         string        `json:"limit_why"`
	Fan              *FanPoint     `json:"fan"`
	Soak             *Soak         `json:"heat_soak"`
	HeatW            form.Number   `json:"heat_w"`
	WallsW           form.Number   `json:"heat_through_walls_w"`
	AirW             form.Number   `json:"heat_by_air_w"`
	KeptW            form.Number   `json:"heat_not_given_off_w"` // to air over 60 K
	Verdicts         []Verdict     `json:"verdicts"`
	FanStopped       *FanStopped   `json:"fan_stopped"`
	Changes          []Change      `json:"changes"`
	MeasuredRange    []form.Number `json:"measured_small_boxes_dba"`
	Helps            []Help        `json:"structure"`
	Cap              string        `json:"cap"`
	Warnings         []string      `json:"warnings"`
	Others           []LayoutBox   `json:"layouts"`

	Places []int `json:"-"` // on the page: of the layouts that use it
}

// Verdict is a finding about a box in plain words.
type Verdict struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// FanPoint is where the fan of a box works.
type FanPoint struct {
	Flow     form.Number `json:"flow_m3_s"`
	Pressure form.Number `json:"pressure_pa"`
}

// Soak is how a box cools once engine and fan have stopped; no time where it takes over two days.
type Soak struct {
	PeakC  form.Number `json:"peak_c"`
	Under  form.Number `json:"under_60c_h"`
	Touch  form.Number `json:"safe_to_touch_h"`
	Text   string      `json:"text"`
	Source string      `json:"source"`
}

// FanStopped is how a box does without its fan.
type FanStopped struct {
	Rise form.Number `json:"temperature_rise_k"`
	Text string      `json:"text"`
}

// Change is what one alteration of a box would do.
type Change struct {
	Change string      `json:"change"`
	DBA    form.Number `json:"insertion_loss_dba"`
}

// LayoutBox is how the same box does in another layout.
type LayoutBox struct {
	Layout   string      `json:"layout"`
	Engine   string      `json:"engine"`
	Name     string      `json:"name"`
	DBA      form.Number `json:"insertion_loss_dba"`
	AirFlow  form.Number `json:"air_flow_m3_s"`
	Rise     form.Number `json:"temperature_rise_k"`
	Verdicts []Verdict   `json:"verdicts"`
}

// UsedBox is an enclosure with an engine in it, in one layout.
type UsedBox struct {
	Layout string
	box    path.Boxed                        // after the readings
	before room.Air                          // at running, before them
	borne  map[string][]scene.StructureBorne // by listener aboard; of the box that is shown
	seats  []string
	limit  string // what no box takes off
}

// Name is that of the enclosure.
func (u *UsedBox) Name() string { return u.box.Sound.Name }

// Boxes are the enclosures in use, of which one is shown.
type Boxes struct {
	Shown UsedBox
	All   []UsedBox
}

// NewBoxes works out what reaches the seats round the box that is shown.
func NewBoxes(k *readings.Known, shown UsedBox, all []UsedBox) (*Boxes, error) {
	all = slices.Clone(all)
	for i := range all {
		all[i].Read(k)
	}
	shown.Read(k)
	err := shown.hear(k)
	shown.limit = limitOf(k, &shown)
	return &Boxes{shown, all}, err
}

// Warnings are those of the box that is shown.
func (x *Boxes) Warnings(u form.Units) []string { return u.LocalAll(boxWarnings(x.Shown.box)) }

// UsedBoxes are the enclosures with a running engine, layout by layout.
func UsedBoxes(b *path.Boat) ([]UsedBox, error) {
	var out []UsedBox
	for _, l := range b.Layouts {
		boxes, err := path.Boxes(b, l)
		if err != nil {
			return nil, fmt.Errorf("layout %s: %w", l.Name, err)
		}
		for _, box := range boxes {
			out = append(out, UsedBox{Layout: l.Name, box: box})
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("%s has no running engine in an enclosure\nhint: give the engine 'enclosure: NAME' and add that name under enclosures", b.File)
	}
	return out, nil
}

// hear works out what the boxed engine sends round the box, through mounts and hull, to each seat aboard.
func (u *UsedBox) hear(k *readings.Known) error {
	p := k.At(u.Layout)
	u.borne = map[string][]scene.StructureBorne{}
	for i := range k.File.Listeners {
		h := &p.Listeners[i]
		all, err := scene.StructureAt(k.Boat, p, h)
		if err != nil {
			return err
		}
		for _, s := range all {
			if slices.Contains(u.box.Engines, s.Engine) {
				u.borne[h.Listener.Name] = append(u.borne[h.Listener.Name], s)
			}
		}
		if len(u.borne[h.Listener.Name]) > 0 {
			u.seats = append(u.seats, h.Listener.Name)
		}
	}
	return nil
}

// Read takes the air of the box as the readings leave it.
func (u *UsedBox) Read(k *readings.Known) {
	u.before = u.box.Running
	for _, x := range k.At(u.Layout).Exhausts {
		if x.Box != nil && x.Box.Sound.Name == u.Name() {
			u.box.Air, u.box.Running = x.Box.Air, x.Box.Running
		}
	}
}

// limitOf says at each place how far a box can help.
func limitOf(k *readings.Known, u *UsedBox) string {
	p := k.At(u.Layout)
	var all []string
	for i := range p.Listeners {
		ways, sum := scene.PastBox(p, u.Name(), &p.Listeners[i])
		all = append(all, scene.PastWords(p.Listeners[i].Listener.Name, ways, sum))
	}
	return strings.Join(all, " ")
}

func boxWarnings(b path.Boxed) []string {
	return form.Unique(append(append([]string{}, b.Sound.Warnings...), b.Air.Warnings...))
}

// Document is the box that is shown, and in short the others.
func (x *Boxes) Document() any {
	m := x.Shown
	d := m.Document(form.Units{})
	d.Cap, d.Helps = m.limit, []Help{}
	for _, seat := range m.seats {
		d.Helps = append(d.Helps, HelpsOf(m.borne[seat], seat)...)
	}
	d.Others = form.Each(x.All, func(u UsedBox) LayoutBox {
		return LayoutBox{u.Layout, u.box.Names(), u.Name(), form.Num(u.box.Sound.DBA), form.Num(u.box.Air.Flow), form.Num(u.box.Air.Rise),
			verdictsOf(u.box.Air.Verdicts, form.Units{})}
	})
	return d
}

// Document is one box in one layout.
func (m *UsedBox) Document(u form.Units) Enclosure {
	s, a := m.box.Sound, m.box.Air
	d := Enclosure{
		Name: s.Name, Layout: m.Layout, Engine: m.box.Names(), InsertionLoss: form.BandValues(s.Loss), InsertionLossDBA: form.Num(s.DBA),
		AirFlow: form.Num(a.Flow), Combustion: form.Num(a.CombustionAir), Cooling: form.Num(a.CoolingAir), InletArea: form.Num(a.InletArea),
		OutletArea: form.Num(a.OutletArea), InletNeeded: form.Num(a.InletAreaNeeded), OutletNeeded: form.Num(a.OutletAreaNeeded),
		InletVelocity: form.Num(a.InletVelocity), InletDrop: inletDrop(a), FanPressure: form.Num(a.FanPressure),
		Rise: form.Num(a.Rise), HeatW: form.Num(a.Heat), WallsW: form.Num(a.ByWalls), AirW: form.Num(a.ByAir), KeptW: form.Num(a.Kept), Verdicts: verdictsOf(a.Verdicts, u),
		MeasuredRange: []form.Number{form.Num(s.Measured[0]), form.Num(s.Measured[1])}, Warnings: u.LocalAll(boxWarnings(m.box)),
		Others: []LayoutBox{},
	}
	running := m.box.Running
	d.RunningRise, d.RunningC = form.Num(running.Rise), celsius(running.Outside+running.Rise)
	d.TemperatureC, d.LimitC, d.LimitWhy = celsius(a.Outside+a.Rise), celsius(a.Outside+a.AllowedRise), a.AllowedWhy
	if a.Fan != nil {
		d.Fan = &FanPoint{form.Num(a.Fan.Flow), form.Num(a.Fan.Pressure)}
	}
	if s, err := m.box.Soak(); err == nil {
		d.Soak = &Soak{celsius(s.Peak), form.NumOr(s.Air60, 1.0/3600), form.NumOr(s.Touch, 1.0/3600), u.Local(s.Text), s.Source}
	}
	if a.FanStopped != nil {
		d.FanStopped = &FanStopped{form.Num(a.FanStopped.Rise), u.Local(a.FanStopped.Text)}
	}
	d.Changes = form.Each(s.Changes, func(c room.Change) Change { return Change{u.Local(c.Change), form.Num(c.DBA)} })
	return d
}

func celsius(kelvin float64) form.Number { return form.Num(kelvin - 273.15) }

func verdictsOf(vs []room.Verdict, u form.Units) []Verdict {
	return form.Each(vs, func(v room.Verdict) Verdict { return Verdict{v.Code, u.Local(v.Text)} })
}

// Sheet has a row for each box and octave.
func (x *Boxes) Sheet() form.Sheet {
	out := form.Sheet{{"layout", "enclosure", "band_hz", "insertion_loss_db"}}
	for _, u := range x.All {
		for i, v := range u.box.Sound.Loss {
			out.Add(u.Layout, u.Name(), fmt.Sprint(spectrum.Nominal[i]), form.Field(form.Num(v)))
		}
	}
	return out
}

// inletDrop is null where no air can come in.
func inletDrop(a room.Air) form.Number {
	if a.Airtight {
		return nil
	}
	return form.Num(a.PressureDrop)
}
