package parts

import (
	"context"
	"fmt"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/path/study/sizing"
)

// BoxSize is a box, or its ducts alone, sized for a level at a seat and a temperature.
type BoxSize struct {
	Layout   string                 `json:"layout"`
	Element  string                 `json:"element"`
	Listener string                 `json:"listener"`
	Budget   map[string]form.Number `json:"budget"`
	Best     *SizedBox              `json:"best"`
	Front    []SizedBox             `json:"front"`
	Present  SizedBox               `json:"present"`
	Tried    int                    `json:"tried"`
	Reached  bool                   `json:"reached"`
	Floor    form.Number            `json:"floor_dba"` // what reaches the seat past any box
	Past     []BoxWay               `json:"past_the_box"`
	Notes    []string               `json:"notes"`

	target *float64
	sized  sizing.BoxSized
}

// SizedBox is one choice.
type SizedBox struct {
	Dimensions   map[string]form.Number `json:"dimensions"`
	Choice       map[string]string      `json:"choice"`
	LevelDBA     form.Number            `json:"level_dba"`
	Pressure     form.Number            `json:"rated_back_pressure_kpa"` // a box changes none: null
	LengthM      form.Number            `json:"length_m"`                // over its walls
	Price        form.Number            `json:"price"`                   // of its walls
	TemperatureC form.Number            `json:"temperature_c"`           // of its air, at rated
	MassKg       form.Number            `json:"mass_kg"`
	VolumeM3     form.Number            `json:"volume_m3"`
	Verdicts     []Verdict              `json:"verdicts"`
	Ways         []BoxWay               `json:"ways"`
	Fails        []string               `json:"fails"` // the goals that it fails
}

// BoxWay is what one way leaves at the seat.
type BoxWay struct {
	Source   string      `json:"source"`
	Way      string      `json:"way"`
	LevelDBA form.Number `json:"level_dba"`
}

// NewBoxSize tries the usual boxes in the place of an enclosure, or its ducts alone.
func NewBoxSize(ctx context.Context, k *readings.Known, l *path.Layout, enclosure string, listener int, budget sizing.BoxBudget, ducts bool) (*BoxSize, error) {
	b := k.File
	enc, ok := enclosureOf(l, enclosure)
	if !ok {
		var names []string
		for _, x := range l.Enclosures {
			names = append(names, x.Name)
		}
		return nil, form.Unknown("enclosure of layout "+l.Name, enclosure, names)
	}
	grid := sizing.UsualBoxes(enc)
	if ducts {
		grid = grid.DuctsOnly(enc)
	}
	sized, err := sizing.Box(ctx, b, l, enc.Name, b.Listeners[listener], grid, budget, sizing.Middle{Levels: k.Quick, Air: k.Box})
	if err != nil {
		return nil, err
	}
	d := &BoxSize{Layout: l.Name, Element: enc.Name, Listener: b.Listeners[listener].Name, Tried: sized.Tried, Reached: sized.Best != nil && sized.Reached,
		Floor: form.Level(sized.Floor), Past: form.Each(sized.Rest, boxWay), Notes: sized.Notes, target: budget.Level, sized: sized,
		Budget: map[string]form.Number{"level_dba": form.NumOr(budget.Level, 1), "temperature_c": kelvinOr(budget.Temperature), "mass_kg": form.NumOr(budget.Mass, 1), "price": form.NumOr(budget.Price, 1)},
		Front:  form.Each(sized.Front, sizedBox), Present: sizedBox(sized.Present)}
	if sized.Best != nil {
		best := sizedBox(*sized.Best)
		d.Best = &best
	}
	return d, nil
}

func enclosureOf(l *path.Layout, name string) (path.Enclosure, bool) {
	for _, x := range l.Enclosures {
		if x.Name == name {
			return x, true
		}
	}
	return path.Enclosure{}, false
}

func kelvinOr(v *float64) form.Number {
	if v == nil {
		return nil
	}
	return celsius(*v)
}

func boxWay(w scene.WayLevel) BoxWay { return BoxWay{w.Source, string(w.Way), form.Level(w.DBA)} }

func sizedBox(f sizing.BoxFound) SizedBox {
	fan := "none"
	if f.Fan != nil {
		fan = fanText(*f.Fan, form.Units{})
	}
	d := SizedBox{LevelDBA: form.Level(f.Level), LengthM: form.Num(f.Enclosure.Size[0]), Price: form.NumOr(f.Price, 1), TemperatureC: celsius(f.Temperature),
		MassKg: form.Num(f.Mass), VolumeM3: form.Num(f.Volume), Verdicts: verdictsOf(f.Trial.Boxed.Air.Verdicts, form.Units{}), Ways: form.Each(f.Trial.Ways, boxWay), Fails: form.Each(f.Misses, func(s string) string { return s }),
		Dimensions: map[string]form.Number{"duct_length_m": form.Num(f.Length), "duct_lining_m": form.Num(f.DuctLining), "section_m2": form.Num(f.Section)},
		Choice:     map[string]string{"walls": wallsText(f.Enclosure), "lining": liningText(f.Enclosure, form.Units{}), "fan": fan, "mounts": f.Mounts}}
	if f.Length == 0 {
		d.Dimensions["duct_lining_m"] = nil
	}
	return d
}

func wallsText(enc path.Enclosure) string {
	var layers []string
	for _, l := range enc.BuildUp {
		layers = append(layers, l.Text)
	}
	return strings.Join(layers, ", ")
}

func liningText(enc path.Enclosure, u form.Units) string {
	switch {
	case enc.Lining == "":
		return "bare"
	case enc.Thickness == 0:
		return enc.Lining
	}
	return u.Show(enc.Thickness, quantity.Length) + " " + enc.Lining
}

// fanText is a fan by its duty point, or by the ends of its curve.
func fanText(f path.Fan, u form.Units) string {
	if n := len(f.Curve); n > 0 {
		return fmt.Sprintf("curve from %s to %s", u.Draught(f.Curve[0].Pressure), u.Show(f.Curve[n-1].Flow, quantity.VolumeFlow))
	}
	text := u.Show(f.Flow, quantity.VolumeFlow)
	if f.Pressure > 0 {
		text += " at " + u.Draught(f.Pressure)
	}
	return text
}

// Document is the search as it stands.
func (d *BoxSize) Document() any { return d }

// Sheet has a row for each choice of the front.
func (d *BoxSize) Sheet() form.Sheet {
	out := form.Sheet{{"walls", "lining", "duct_length_m", "duct_lining_m", "section_m2", "fan", "mounts", "level_dba", "temperature_c", "mass_kg", "volume_m3", "price", "fails"}}
	for _, f := range d.Front {
		out.Add(f.Choice["walls"], f.Choice["lining"], form.Field(f.Dimensions["duct_length_m"]), form.Field(f.Dimensions["duct_lining_m"]), form.Field(f.Dimensions["section_m2"]),
			f.Choice["fan"], f.Choice["mounts"], form.Field(f.LevelDBA), form.Field(f.TemperatureC), form.Field(f.MassKg), form.Field(f.VolumeM3), form.Field(f.Price), strings.Join(f.Fails, "; "))
	}
	return out
}

// frontBoxes is how many of the front a table shows.
const frontBoxes = 8

// Text shows the box as it stands, the best and some of the front, and what reaches the seat past it.
func (d *BoxSize) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s: %s sized for %s (%d boxes tried)", form.Quote(d.Layout), d.Element, d.Listener, d.Tried)
	t.Blank()
	t.Table(d.boxTable(u))
	t.Blank()
	if n := len(d.Front); n > 0 && d.sized.Best == nil {
		t.Say("", "The front holds the boxes that fail the fewest goals and that none of these beats in level, temperature, mass and outer size at once: %d of %d are shown, json and csv give all.", min(n, frontBoxes), n)
	} else if n > 0 {
		t.Say("", "The front holds the boxes that nothing beats in level, temperature, mass and outer size at once, none starved or cooked: %d of %d are shown, json and csv give all.", min(n, frontBoxes), n)
	}
	t.Say("", "%s", d.sized.Words(d.target))
	t.Blank()
	t.Table(d.wayTable())
	for _, n := range d.Notes {
		t.Say("note: ", "%s", u.Local(n))
	}
	t.Say("note: ", "Levels and temperatures are those that the readings of the file leave; mass and price count walls, lining and ducts; walls, ducts and fans are the usual of the trade (judgement).")
	return t
}

// boxTable is the box as it stands, the one that is taken, and some of the front.
func (d *BoxSize) boxTable(u form.Units) *form.Table {
	head := []string{"", ">dB(A)", ">air", ">mass", ">price", "walls and lining", "ducts", "fan", "mounts"}
	missed := d.sized.Best == nil
	if missed {
		head = append(head, "fails")
	}
	tb := form.NewTable(head...)
	add := func(name string, f sizing.BoxFound) {
		fan := "none"
		if f.Fan != nil {
			fan = fanText(*f.Fan, u)
		}
		price := "?"
		if f.Price != nil {
			price = fmt.Sprintf("%.0f", *f.Price)
		}
		row := []string{name, fmt.Sprintf("%.1f", f.Level), u.Show(f.Temperature, quantity.Temperature), u.Show(f.Mass, quantity.Mass), price,
			wallsText(f.Enclosure) + "; " + liningText(f.Enclosure, u), ductsText(f, u), fan, f.Mounts}
		if missed {
			row = append(row, u.Local(strings.Join(f.Misses, ", ")))
		}
		tb.Add(row...)
	}
	add("as it stands", d.sized.Present)
	if d.sized.Best != nil {
		add(d.taken(), *d.sized.Best)
	}
	for _, i := range spread(len(d.sized.Front), frontBoxes) {
		add(fmt.Sprintf("front %d", i+1), d.sized.Front[i])
	}
	return tb
}

func ductsText(f sizing.BoxFound, u form.Units) string {
	switch {
	case f.Section == 0:
		return "as they are"
	case f.Length > 0:
		return fmt.Sprintf("%s, %s long, %s foam", u.Show(f.Section, quantity.Area), u.Show(f.Length, quantity.Length), u.Show(f.DuctLining, quantity.Length))
	}
	return fmt.Sprintf("%s, bare", u.Show(f.Section, quantity.Area))
}

// taken is what the box that is taken is: the lightest that is quiet enough, or the quietest where none is.
func (d *BoxSize) taken() string {
	if d.sized.Reached {
		return "lightest"
	}
	return "quietest"
}

// wayTable is what reaches the listener from the box that is taken, and what else does.
func (d *BoxSize) wayTable() *form.Table {
	ways := form.NewTable("what reaches "+d.Listener, "way", ">dB(A)")
	if best := d.sized.Best; best != nil {
		for _, w := range best.Trial.Ways {
			ways.Add(w.Source+", out of the "+d.taken()+" box", string(w.Way), fmt.Sprintf("%.1f", w.DBA))
		}
	}
	for _, w := range d.sized.Rest[:min(frontBoxes, len(d.sized.Rest))] {
		ways.Add(w.Source, string(w.Way), fmt.Sprintf("%.1f", w.DBA))
	}
	return ways
}
