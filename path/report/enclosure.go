package report

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// Enclosure is a box round an engine.
type Enclosure struct {
	Name             string      `json:"name"`
	Layout           string      `json:"layout"`
	Engine           string      `json:"engine"`
	InsertionLoss    []Number    `json:"insertion_loss_db"`
	InsertionLossDBA Number      `json:"insertion_loss_dba"`
	AirFlow          Number      `json:"air_flow_m3_s"`
	Combustion       Number      `json:"combustion_air_m3_s"`
	Cooling          Number      `json:"cooling_air_m3_s"`
	InletArea        Number      `json:"inlet_area_m2"`
	OutletArea       Number      `json:"outlet_area_m2"`
	InletNeeded      Number      `json:"inlet_area_needed_m2"`
	OutletNeeded     Number      `json:"outlet_area_needed_m2"`
	InletVelocity    Number      `json:"inlet_velocity_m_s"`
	InletDrop        Number      `json:"inlet_pressure_drop_pa"`
	FanPressure      Number      `json:"fan_pressure_pa"`
	Rise             Number      `json:"temperature_rise_k"`
	HeatW            Number      `json:"heat_w"`
	WallsW           Number      `json:"heat_through_walls_w"`
	Verdicts         []Verdict   `json:"verdicts"`
	FanStopped       *FanStopped `json:"fan_stopped"`
	Changes          []Change    `json:"changes"`
	MeasuredRange    []Number    `json:"measured_small_boxes_dba"`
	Helps            []Help      `json:"structure"`
	Cap              string      `json:"cap"`
	Warnings         []string    `json:"warnings"`
	Others           []LayoutBox `json:"layouts"`

	Places []int `json:"-"` // on the page: of the layouts that use it
}

// Verdict is a finding about a box in plain words.
type Verdict struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// FanStopped is how a box does without its fan.
type FanStopped struct {
	Rise Number `json:"temperature_rise_k"`
	Text string `json:"text"`
}

// Change is what one alteration of a box would do.
type Change struct {
	Change string `json:"change"`
	DBA    Number `json:"insertion_loss_dba"`
}

// LayoutBox is how the same box does in another layout.
type LayoutBox struct {
	Layout   string    `json:"layout"`
	Engine   string    `json:"engine"`
	Name     string    `json:"name"`
	DBA      Number    `json:"insertion_loss_dba"`
	AirFlow  Number    `json:"air_flow_m3_s"`
	Rise     Number    `json:"temperature_rise_k"`
	Verdicts []Verdict `json:"verdicts"`
}

// UsedBox is an enclosure with an engine in it, in one layout.
type UsedBox struct {
	Layout string
	box    path.Boxed
	borne  map[string][]path.StructureBorne // by listener aboard; of the box that is shown
	seats  []string
}

// Name is that of the enclosure.
func (u *UsedBox) Name() string { return u.box.Sound.Name }

// Boxes are the enclosures in use, of which one is shown.
type Boxes struct {
	Shown UsedBox
	All   []UsedBox
}

// NewBoxes works out what reaches the seats round the box that is shown.
func NewBoxes(b *path.Boat, shown UsedBox, all []UsedBox) (*Boxes, error) {
	err := shown.hear(b)
	return &Boxes{shown, all}, err
}

// Warnings are those of the box that is shown.
func (x *Boxes) Warnings(u Units) []string { return u.localAll(boxWarnings(x.Shown.box)) }

// UsedBoxes are the enclosures with a running engine, layout by layout.
func UsedBoxes(b *path.Boat) ([]UsedBox, error) {
	var out []UsedBox
	for _, l := range b.Layouts {
		var running []path.Occupant
		for i := range l.Engines {
			e := &l.Engines[i]
			if e.Stopped || e.Enclosure == "" {
				continue
			}
			duty, _ := e.RunningDuty()
			r, err := e.Engine.At(duty)
			if err != nil {
				return nil, fmt.Errorf("engine %s: %w", e.Name, err)
			}
			running = append(running, path.Occupant{Engine: e, Source: r})
		}
		boxes, err := path.Boxes(b, l, running)
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
func (u *UsedBox) hear(b *path.Boat) error {
	l, _ := b.Layout(u.Layout)
	p, err := path.Predict(b, l)
	if err != nil {
		return err
	}
	u.borne = map[string][]path.StructureBorne{}
	for i := range p.Listeners {
		h := &p.Listeners[i]
		all, err := path.StructureAt(b, &p, h)
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

// limit says what the route through the mounts leaves at each seat aboard.
func (u UsedBox) limit() string {
	var at []string
	for _, seat := range u.seats {
		for _, s := range u.borne[seat] {
			at = append(at, fmt.Sprintf("%.0f dB(A) at %s", s.Level.DBA(), seat))
		}
	}
	if len(at) == 0 {
		return "nobody listens aboard: what comes through the mounts is not told"
	}
	return "a box can bring no more than the route through the mounts leaves: " + strings.Join(at, ", ")
}

func boxWarnings(b path.Boxed) []string {
	return unique(append(append([]string{}, b.Sound.Warnings...), b.Air.Warnings...))
}

// Document is the box that is shown, and in short the others.
func (x *Boxes) Document() any {
	m := x.Shown
	d := m.document(Units{})
	d.Cap, d.Helps = m.limit(), []Help{}
	for _, seat := range m.seats {
		d.Helps = append(d.Helps, helpsOf(m.borne[seat], seat)...)
	}
	d.Others = each(x.All, func(u UsedBox) LayoutBox {
		return LayoutBox{u.Layout, u.box.Names(), u.Name(), num(u.box.Sound.DBA), num(u.box.Air.Flow), num(u.box.Air.Rise),
			verdictsOf(u.box.Air.Verdicts, Units{})}
	})
	return d
}

// document is one box in one layout.
func (m *UsedBox) document(u Units) Enclosure {
	s, a := m.box.Sound, m.box.Air
	d := Enclosure{
		Name: s.Name, Layout: m.Layout, Engine: m.box.Names(), InsertionLoss: bandValues(s.Loss), InsertionLossDBA: num(s.DBA),
		AirFlow: num(a.Flow), Combustion: num(a.CombustionAir), Cooling: num(a.CoolingAir), InletArea: num(a.InletArea),
		OutletArea: num(a.OutletArea), InletNeeded: num(a.InletAreaNeeded), OutletNeeded: num(a.OutletAreaNeeded),
		InletVelocity: num(a.InletVelocity), InletDrop: inletDrop(a), FanPressure: num(a.FanPressure),
		Rise: num(a.Rise), HeatW: num(a.Heat), WallsW: num(a.Walls * a.Rise), Verdicts: verdictsOf(a.Verdicts, u),
		MeasuredRange: []Number{num(s.Measured[0]), num(s.Measured[1])}, Warnings: u.localAll(boxWarnings(m.box)),
		Others: []LayoutBox{},
	}
	if a.FanStopped != nil {
		d.FanStopped = &FanStopped{num(a.FanStopped.Rise), u.local(a.FanStopped.Text)}
	}
	d.Changes = each(s.Changes, func(c room.Change) Change { return Change{u.local(c.Change), num(c.DBA)} })
	return d
}

func verdictsOf(vs []room.Verdict, u Units) []Verdict {
	return each(vs, func(v room.Verdict) Verdict { return Verdict{v.Code, u.local(v.Text)} })
}

// Sheet has a row for each box and octave.
func (x *Boxes) Sheet() Sheet {
	out := Sheet{{"layout", "enclosure", "band_hz", "insertion_loss_db"}}
	for _, u := range x.All {
		for i, v := range u.box.Sound.Loss {
			out.add(u.Layout, u.Name(), fmt.Sprint(spectrum.Nominal[i]), field(num(v)))
		}
	}
	return out
}

// Text shows what the box takes off, its air, what changes would do, and the box in every layout.
func (x *Boxes) Text(u Units) *Text {
	t, m := &Text{}, x.Shown
	s, a := m.box.Sound, m.box.Air
	t.say("", "%s round %s, layout %s", s.Name, m.box.Names(), quote(m.Layout))
	t.blank()
	loss := bandTable("insertion loss, dB")
	loss.add(bandCells("this box", s.Loss, 1)...)
	t.table(loss)
	t.blank()
	t.say("", "It takes %.0f dB(A) off the engine's own noise. %s Small boxes as built measure %.0f to %.0f dB(A).",
		s.DBA, sentence(m.limit()), s.Measured[0], s.Measured[1])
	t.blank()
	t.table(airTable(a, u))
	t.blank()
	for _, v := range a.Verdicts {
		t.say("", "%s", sentence(u.local(v.Text)))
	}
	if a.FanStopped != nil {
		t.say("", "%s", sentence(u.local(a.FanStopped.Text)))
	}
	t.line("\nWhat a change would do (3 dB is barely heard, 10 dB is about half as loud):\n")
	t.table(changeTable(s, u))
	for _, seat := range m.seats {
		for _, b := range m.borne[seat] {
			sayHelps(t, b, seat, u)
		}
	}
	if len(x.All) > 1 {
		t.line("\nThe box in every layout:\n")
		t.table(x.everywhere(u))
	}
	return t
}

// inletDrop is null where no air can come in.
func inletDrop(a room.Air) Number {
	if a.Airtight {
		return nil
	}
	return num(a.PressureDrop)
}

func airTable(a room.Air, u Units) *Table {
	air := newTable("air", ">has", ">needs")
	air.add("through the inlet", u.show(a.Flow, boatfile.VolumeFlow), u.show(a.Needed, boatfile.VolumeFlow))
	air.add("  of it to burn", "", u.show(a.CombustionAir, boatfile.VolumeFlow))
	air.add("  of it to carry off heat", "", u.show(a.CoolingAir, boatfile.VolumeFlow))
	air.add("inlet area", u.show(a.InletArea, boatfile.Area), u.show(a.InletAreaNeeded, boatfile.Area))
	air.add("outlet area", u.show(a.OutletArea, boatfile.Area), u.show(a.OutletAreaNeeded, boatfile.Area))
	air.add("velocity in the inlet", u.show(a.InletVelocity, boatfile.Speed), "")
	if !a.Airtight {
		air.add("pressure drop", u.draught(a.PressureDrop), "")
	}
	air.add("fan pressure", "", u.draught(a.FanPressure))
	air.add("heat to carry off", u.show(a.Heat, boatfile.Power), "")
	air.add("  of it through the walls", u.show(a.Walls*a.Rise, boatfile.Power), "")
	air.add("air in the box warmer by", u.warmer(a.Rise), "")
	return air
}

func changeTable(s room.Performance, u Units) *Table {
	t := newTable("change", ">dB(A) off", ">against now")
	for _, c := range s.Changes {
		t.add(u.local(c.Change), fmt.Sprintf("%.0f", c.DBA), fmt.Sprintf("%+.1f", c.DBA-s.DBA))
	}
	return t
}

// everywhere is how the boxes do in every layout.
func (x *Boxes) everywhere(u Units) *Table {
	t := newTable("layout", ">dB(A) off", ">air", ">warmer by", "verdict")
	for _, b := range x.All {
		var words []string
		for _, v := range b.box.Air.Verdicts {
			words = append(words, v.Code)
		}
		t.add(b.Layout, fmt.Sprintf("%.0f", b.box.Sound.DBA), u.show(b.box.Air.Flow, boatfile.VolumeFlow),
			u.warmer(b.box.Air.Rise), strings.Join(words, ", "))
	}
	return t
}
