package main

import (
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

type enclosureDoc struct {
	Name             string       `json:"name"`
	Layout           string       `json:"layout"`
	Engine           string       `json:"engine"`
	InsertionLoss    []number     `json:"insertion_loss_db"`
	InsertionLossDBA number       `json:"insertion_loss_dba"`
	AirFlow          number       `json:"air_flow_m3_s"`
	Combustion       number       `json:"combustion_air_m3_s"`
	Cooling          number       `json:"cooling_air_m3_s"`
	InletArea        number       `json:"inlet_area_m2"`
	OutletArea       number       `json:"outlet_area_m2"`
	InletNeeded      number       `json:"inlet_area_needed_m2"`
	OutletNeeded     number       `json:"outlet_area_needed_m2"`
	InletVelocity    number       `json:"inlet_velocity_m_s"`
	InletDrop        number       `json:"inlet_pressure_drop_pa"`
	FanPressure      number       `json:"fan_pressure_pa"`
	Rise             number       `json:"temperature_rise_k"`
	HeatW            number       `json:"heat_w"`
	WallsW           number       `json:"heat_through_walls_w"`
	Verdicts         []verdictDoc `json:"verdicts"`
	FanStopped       *stoppedDoc  `json:"fan_stopped"`
	Changes          []changeDoc  `json:"changes"`
	MeasuredRange    []number     `json:"measured_small_boxes_dba"`
	Helps            []helpDoc    `json:"structure"`
	Cap              string       `json:"cap"`
	Warnings         []string     `json:"warnings"`
	Others           []layoutsBox `json:"layouts"`
}

type verdictDoc struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

type stoppedDoc struct {
	Rise number `json:"temperature_rise_k"`
	Text string `json:"text"`
}

type changeDoc struct {
	Change string `json:"change"`
	DBA    number `json:"insertion_loss_dba"`
}

// layoutsBox is how the same box does in another layout.
type layoutsBox struct {
	Layout   string       `json:"layout"`
	Engine   string       `json:"engine"`
	Name     string       `json:"name"`
	DBA      number       `json:"insertion_loss_dba"`
	AirFlow  number       `json:"air_flow_m3_s"`
	Rise     number       `json:"temperature_rise_k"`
	Verdicts []verdictDoc `json:"verdicts"`
}

type enclosureOptions struct {
	*common
	name, layout  string
	failOverLimit bool
}

func newEnclosure(c *common) *cobra.Command {
	o := &enclosureOptions{common: c}
	cmd := &cobra.Command{
		Use:   "enclosure FILE",
		Short: "A generator box: insertion loss, the air it needs, temperature rise, what an extra hole costs",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	cmd.Flags().StringVar(&o.name, "enclosure", "", "the enclosure; default the first in use")
	cmd.Flags().StringVar(&o.layout, "layout", "", "the layout whose box is shown; default the first")
	cmd.Flags().BoolVar(&o.failOverLimit, "fail-over-limit", false, "exit with status 1 when a limit of the file is exceeded")
	return cmd
}

// usedBox is an enclosure with an engine in it, in one layout.
type usedBox struct {
	layout string
	box    path.Boxed
	borne  map[string][]path.StructureBorne // by listener aboard; of the box that is shown
	seats  []string
}

func (o *enclosureOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	boxes, err := usedBoxes(b)
	if err != nil {
		return err
	}
	main, err := o.choose(b, boxes)
	if err != nil {
		return err
	}
	if err := main.hear(b); err != nil {
		return err
	}
	for _, t := range boxWarnings(main.box) {
		o.remark("warning: %s", o.local(t))
	}
	if err := o.print(main, boxes); err != nil {
		return err
	}
	if !o.failOverLimit {
		return nil
	}
	w, err := work(b, selection{})
	if err != nil {
		return err
	}
	if overLimit(w) {
		return errOverLimit
	}
	return nil
}

func usedBoxes(b *path.Boat) ([]usedBox, error) {
	var out []usedBox
	for _, l := range b.Layouts {
		boxes, err := path.Boxes(b, l)
		if err != nil {
			return nil, badInput("layout %s: %w", l.Name, err)
		}
		for _, box := range boxes {
			out = append(out, usedBox{layout: l.Name, box: box})
		}
	}
	if len(out) == 0 {
		return nil, badInput("%s has no running engine in an enclosure\nhint: give the engine 'enclosure: NAME' and add that name under enclosures", b.File)
	}
	return out, nil
}

func (o *enclosureOptions) choose(b *path.Boat, boxes []usedBox) (usedBox, error) {
	if o.layout != "" {
		l, err := chooseLayout(b, o.layout)
		if err != nil {
			return usedBox{}, err
		}
		o.layout = l.Name
	}
	var names []string
	for _, u := range boxes {
		if (o.name == "" || u.box.Sound.Name == o.name) && (o.layout == "" || u.layout == o.layout) {
			return u, nil
		}
		names = append(names, u.box.Sound.Name)
	}
	return usedBox{}, unknown("enclosure in use", o.name, unique(names))
}

// hear works out what the boxed engine sends round the box, through mounts and hull, to each seat aboard.
func (u *usedBox) hear(b *path.Boat) error {
	l, _ := b.Layout(u.layout)
	p, err := path.Predict(b, l)
	if err != nil {
		return badInput("%w", err)
	}
	u.borne = map[string][]path.StructureBorne{}
	for i := range p.Listeners {
		h := &p.Listeners[i]
		all, err := path.StructureAt(b, &p, h)
		if err != nil {
			return badInput("%w", err)
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
func (u usedBox) limit() string {
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

func (o *enclosureOptions) print(m usedBox, boxes []usedBox) error {
	switch o.format {
	case "json":
		return printJSON(o.out, newEnclosureDoc(m, boxes))
	case "csv":
		return enclosureCSV(o.common, boxes)
	}
	o.table(m, boxes)
	return nil
}

func newEnclosureDoc(m usedBox, boxes []usedBox) enclosureDoc {
	s, a := m.box.Sound, m.box.Air
	d := enclosureDoc{
		Name: s.Name, Layout: m.layout, Engine: m.box.Names(), InsertionLoss: bandValues(s.Loss), InsertionLossDBA: num(s.DBA),
		AirFlow: num(a.Flow), Combustion: num(a.CombustionAir), Cooling: num(a.CoolingAir), InletArea: num(a.InletArea),
		OutletArea: num(a.OutletArea), InletNeeded: num(a.InletAreaNeeded), OutletNeeded: num(a.OutletAreaNeeded),
		InletVelocity: num(a.InletVelocity), InletDrop: inletDrop(a), FanPressure: num(a.FanPressure),
		Rise: num(a.Rise), HeatW: num(a.Heat), WallsW: num(a.Walls * a.Rise), Verdicts: verdictDocs(a.Verdicts), Changes: []changeDoc{},
		MeasuredRange: []number{num(s.Measured[0]), num(s.Measured[1])}, Cap: m.limit(), Helps: []helpDoc{}, Warnings: boxWarnings(m.box),
		Others: []layoutsBox{},
	}
	if a.FanStopped != nil {
		d.FanStopped = &stoppedDoc{num(a.FanStopped.Rise), a.FanStopped.Text}
	}
	for _, c := range s.Changes {
		d.Changes = append(d.Changes, changeDoc{c.Change, num(c.DBA)})
	}
	for _, seat := range m.seats {
		d.Helps = append(d.Helps, helpDocs(m.borne[seat], seat)...)
	}
	for _, u := range boxes {
		d.Others = append(d.Others, layoutsBox{u.layout, u.box.Names(), u.box.Sound.Name, num(u.box.Sound.DBA),
			num(u.box.Air.Flow), num(u.box.Air.Rise), verdictDocs(u.box.Air.Verdicts)})
	}
	return d
}

func verdictDocs(vs []room.Verdict) []verdictDoc {
	out := []verdictDoc{}
	for _, v := range vs {
		out = append(out, verdictDoc{v.Code, v.Text})
	}
	return out
}

func (o *enclosureOptions) table(m usedBox, boxes []usedBox) {
	s, a := m.box.Sound, m.box.Air
	paragraph(o.out, "", fmt.Sprintf("%s round %s, layout %s", s.Name, m.box.Names(), quote(m.layout)))
	fmt.Fprintln(o.out)
	t := bandTable("insertion loss, dB")
	t.rows = append(t.rows, bandCells("this box", s.Loss, 1))
	t.print(o.out)
	fmt.Fprintln(o.out)
	paragraph(o.out, "", fmt.Sprintf("It takes %.0f dB(A) off the engine's own noise. %s Small boxes as built measure %.0f to %.0f dB(A).",
		s.DBA, sentence(m.limit()), s.Measured[0], s.Measured[1]))
	fmt.Fprintln(o.out)
	o.airTable(a).print(o.out)
	fmt.Fprintln(o.out)
	for _, v := range a.Verdicts {
		paragraph(o.out, "", sentence(o.local(v.Text)))
	}
	if a.FanStopped != nil {
		paragraph(o.out, "", sentence(o.local(a.FanStopped.Text)))
	}
	o.changes(s)
	for _, seat := range m.seats {
		for _, b := range m.borne[seat] {
			o.helps(b, seat)
		}
	}
	o.others(boxes)
}

// inletDrop is null where no air can come in.
func inletDrop(a room.Air) number {
	if a.Airtight {
		return nil
	}
	return num(a.PressureDrop)
}

func (o *enclosureOptions) airTable(a room.Air) *table {
	air := table{head: []string{"air", "has", "needs"}, right: []bool{false, true, true}}
	air.add("through the inlet", o.show(a.Flow, boatfile.VolumeFlow), o.show(a.Needed, boatfile.VolumeFlow))
	air.add("  of it to burn", "", o.show(a.CombustionAir, boatfile.VolumeFlow))
	air.add("  of it to carry off heat", "", o.show(a.CoolingAir, boatfile.VolumeFlow))
	air.add("inlet area", o.show(a.InletArea, boatfile.Area), o.show(a.InletAreaNeeded, boatfile.Area))
	air.add("outlet area", o.show(a.OutletArea, boatfile.Area), o.show(a.OutletAreaNeeded, boatfile.Area))
	air.add("velocity in the inlet", o.show(a.InletVelocity, boatfile.Speed), "")
	if !a.Airtight {
		air.add("pressure drop", o.draught(a.PressureDrop), "")
	}
	air.add("fan pressure", "", o.draught(a.FanPressure))
	air.add("heat to carry off", o.show(a.Heat, boatfile.Power), "")
	air.add("  of it through the walls", o.show(a.Walls*a.Rise, boatfile.Power), "")
	air.add("air in the box warmer by", o.warmer(a.Rise), "")
	return &air
}

// draught prints a small pressure.
func (c *common) draught(pa float64) string {
	if c.system() == boatfile.Metric {
		return fmt.Sprintf("%.0f Pa", pa)
	}
	return c.show(pa, boatfile.Pressure)
}

// warmer prints a difference of temperature.
func (c *common) warmer(kelvin float64) string {
	if c.system() == boatfile.Metric {
		return fmt.Sprintf("%.0f °C", kelvin)
	}
	return fmt.Sprintf("%.0f °F", kelvin*9/5)
}

func (o *enclosureOptions) changes(s room.Performance) {
	fmt.Fprintln(o.out, "\nWhat a change would do (3 dB is barely heard, 10 dB is about half as loud):")
	fmt.Fprintln(o.out)
	t := table{head: []string{"change", "dB(A) off", "against now"}, right: []bool{false, true, true}}
	for _, c := range s.Changes {
		t.add(o.local(c.Change), fmt.Sprintf("%.0f", c.DBA), fmt.Sprintf("%+.1f", c.DBA-s.DBA))
	}
	t.print(o.out)
}

func (o *enclosureOptions) others(boxes []usedBox) {
	if len(boxes) < 2 {
		return
	}
	fmt.Fprintln(o.out, "\nThe box in every layout:")
	fmt.Fprintln(o.out)
	t := table{head: []string{"layout", "dB(A) off", "air", "warmer by", "verdict"}, right: []bool{false, true, true, true, false}}
	for _, u := range boxes {
		var words []string
		for _, v := range u.box.Air.Verdicts {
			words = append(words, v.Code)
		}
		t.add(u.layout, fmt.Sprintf("%.0f", u.box.Sound.DBA), o.show(u.box.Air.Flow, boatfile.VolumeFlow),
			o.warmer(u.box.Air.Rise), strings.Join(words, ", "))
	}
	t.print(o.out)
}

func enclosureCSV(c *common, boxes []usedBox) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"layout", "enclosure", "band_hz", "insertion_loss_db"})
	for _, u := range boxes {
		for i, v := range u.box.Sound.Loss {
			w.Write([]string{u.layout, u.box.Sound.Name, fmt.Sprint(spectrum.Nominal[i]), field(num(v))})
		}
	}
	w.Flush()
	return writeError(w.Error())
}
