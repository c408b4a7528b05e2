package boatfile

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/layers"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/room"
)

// usualHole is the area of a hole in a box that nobody has measured, m2 (common practice, no source).
const usualHole = 0.01

func (r *reader) enclosures(n *decode.Node) []path.Enclosure {
	var out []path.Enclosure
	for i, k := range r.Section(n, "enclosures").Keys {
		out = append(out, r.enclosure(k.Text, n.Values[i]))
	}
	return out
}

func (r *reader) enclosure(name string, n *decode.Node) path.Enclosure {
	o := r.Object(n, "enclosures."+name)
	e := path.Enclosure{Name: name}
	var ok bool
	if e.Size, ok = r.Vector(o.Get("size"), o.Path+" size", decode.UpTo(50)); !ok {
		e.Size = [3]float64{1.2, 0.8, 0.8}
		if !o.Has("size") {
			r.Assume(o.Path+" size", "1.2 m by 0.8 m by 0.8 m", practice, 2)
		}
	}
	if e.BuildUp = r.buildUp(o.Get("build_up"), o.Path); !o.Has("build_up") {
		e.BuildUp = r.assumedBuildUp(o.Path)
	}
	r.boxLining(o, &e)
	e.Heat, _ = o.Value("heat", decode.Positive, quantity.Power)
	r.ownAir(o, &e)
	e.Limit, _ = o.Value("limit", decode.Limits{Min: 273.15, Max: 473.15, OpenMin: true}, quantity.Temperature)
	if e.Gap, _ = o.Value("gap", decode.Positive, quantity.Length); e.Gap > 0 && 2*e.Gap >= min(e.Size[0], e.Size[1]) {
		r.Wrong(o.Get("gap"), "", "%s gap: twice %s leaves no room for an engine in the box", o.Path, quantity.Format(e.Gap, quantity.Length, quantity.Metric))
	}
	e.Door = r.door(o)
	e.Fan = r.fan(o)
	r.fanFits(o.Get("fan"), &e)
	for i, item := range r.List(o.Get("openings"), o.Path+" openings", 0, decode.Most) {
		e.Openings = append(e.Openings, r.opening(item, fmt.Sprintf("%s.openings[%d]", o.Path, i+1), e.Size))
	}
	if !o.Has("openings") {
		e.HolesUnknown, e.Openings = true, []path.Opening{{Role: "inlet", Area: usualHole}, {Role: "outlet", Area: usualHole}}
		r.Assume(o.Path+" openings", "an inlet and an outlet of 100 cm2 each; whether they cool the engine is not judged", practice, 3)
	}
	e.Mounts = r.mounts(o.Get("mounts"), o.Path+".mounts")
	o.Done()
	return e
}

// ownAir reads own_air_pipe: true, false, or the pipe's sizes.
func (r *reader) ownAir(o *decode.Object, e *path.Enclosure) {
	n := o.Get("own_air_pipe")
	if n == nil {
		e.AirUnknown = true
		r.Assume(o.Path+" own_air_pipe", "false: the engine breathes the air in the box, and a quarter of its intake is heard past it", practice+"; in one box of six all of it is, by a pipe", 5)
		return
	}
	e.AirMouth.Role = "air pipe"
	if n.Kind != decode.Mapping {
		if e.OwnAirPipe, _ = o.Flag("own_air_pipe"); e.OwnAirPipe {
			r.mouth(o.Path+".own_air_pipe", &e.AirMouth)
		}
		return
	}
	p := r.Object(n, o.Path+".own_air_pipe")
	pipe := room.AirPipe{Length: p.OrAssume("length", quantity.Length, decode.Positive, 1, practice, 0)}
	pipe.Bends, _ = r.Whole(p.Get("bends"), p.Path+" bends", 0, 20)
	pipe.Bore, _ = p.Value("bore", decode.Positive, quantity.Length)
	if e.OwnAirPipe = true; pipe.Bore > 0 {
		e.AirPipe = &pipe
	}
	e.AirMouth.Area = math.Pi / 4 * pipe.Bore * pipe.Bore
	r.mouthAt(p, &e.AirMouth)
	if loss := r.Bands(p.Get("insertion_loss"), p.Path+".insertion_loss"); loss != nil {
		e.AirMouth.Duct = &path.LinedDuct{Measured: loss}
	}
	if p.Done(); e.AirPipe == nil {
		r.Assume(p.Path+" bore", "wide enough", practice, 0)
	}
}

// mouthAt reads where the mouth of an opening or a pipe lies and looks.
func (r *reader) mouthAt(o *decode.Object, op *path.Opening) {
	op.To = o.Text("to")
	op.At, op.AtStated = r.Vector(o.Get("at"), o.Path+" at", decode.AnyValue)
	op.Facing = o.Word("facing", Facings...)
	if op.Role != "leak" {
		r.mouth(o.Path, op)
	}
}

// door reads {seal_length, gap}.
func (r *reader) door(o *decode.Object) *path.Door {
	n := o.Get("door")
	if n == nil || n.None() {
		return nil
	}
	d := r.Object(n, o.Path+".door")
	out := path.Door{Seal: d.OrAssume("seal_length", quantity.Length, decode.Positive, 3, practice, 2), Gap: d.OrAssume("gap", quantity.Length, decode.Limits{Max: 0.1}, 0.0005, practice, 3)}
	d.Done()
	return &out
}

// fan reads {flow, at_pressure} or {curve}; a fan whose flow nobody knows is left out and listed.
func (r *reader) fan(o *decode.Object) *path.Fan {
	n := o.Get("fan")
	if n == nil || n.None() {
		return nil
	}
	f := r.Object(n, o.Path+".fan")
	var fan path.Fan
	fan.Flow, _ = f.Value("flow", decode.Positive, quantity.VolumeFlow)
	fan.Pressure, _ = f.Value("at_pressure", decode.Positive, quantity.Pressure)
	fan.Curve = r.fanCurve(f)
	fan.SoundPower, _ = f.Value("sound_power", decode.Limits{Min: 20, Max: 140}, quantity.LevelA)
	if fan.Curve != nil && fan.Flow > 0 {
		r.Wrong(f.Get("flow"), "leave out flow and at_pressure", "%s has a curve and a duty point", f.Path)
	}
	fan.Stopped = f.Word("running", "stopped") != ""
	fan.IgnitionProof, _ = f.Flag("ignition_protected")
	f.Done()
	if fan.Flow == 0 && fan.Curve == nil {
		r.Assume(f.Path+" flow", "unknown: the box is taken without a fan", practice, 0)
		return nil
	}
	return &fan
}

// fanCurve reads [[flow, pressure], ...].
func (r *reader) fanCurve(f *decode.Object) []room.FanPoint {
	n := f.Get("curve")
	var out []room.FanPoint
	for _, item := range r.List(n, f.Path+" curve", 2, 50) {
		pair := r.List(item, f.Path+" curve", 2, 2)
		if len(pair) != 2 {
			return nil
		}
		q, ok := r.Quantity(pair[0], f.Path+" curve", decode.NotNegative, quantity.VolumeFlow)
		p, too := r.Quantity(pair[1], f.Path+" curve", decode.NotNegative, quantity.Pressure)
		if !ok || !too {
			return nil
		}
		out = append(out, room.FanPoint{Flow: q.Value, Pressure: p.Value})
	}
	if len(out) == 0 {
		return nil
	}
	if err := (&room.Fan{Curve: out}).Check(); err != nil {
		r.Fail(n, f.Path, err)
		return nil
	}
	return out
}

// boxLining reads "25 mm foam"; a lining without a thickness keeps that of its row in the table.
func (r *reader) boxLining(o *decode.Object, e *path.Enclosure) {
	text := r.liningOf(o, "lining")
	switch {
	case !o.Has("lining"):
		r.Assume(o.Path+" lining", "bare", practice, 3)
		return
	case text == "bare" || text == "":
		return
	}
	e.Lining, e.Thickness = splitLining(text)
}

// splitLining parts "25 mm foam" into material and thickness, m; 0 = not stated.
func splitLining(text string) (string, float64) {
	if l, _, err := layers.WithNote(text, nil); err == nil && l.Thickness > 0 && strings.ContainsAny(text, "0123456789") {
		return l.Material, l.Thickness
	}
	return text, 0
}

func (r *reader) opening(n *decode.Node, what string, box [3]float64) path.Opening {
	o := r.Object(n, what)
	op := path.Opening{Role: o.Word("role", "inlet", "outlet", "leak")}
	if op.Role == "" && !o.Has("role") {
		op.Role = "inlet"
		r.Assume(what+" role", "inlet", practice, 0)
	}
	allowed := decode.Positive
	if op.Role == "leak" {
		allowed = decode.NotNegative // none at all, instead of the leak that is assumed
	}
	op.Area, _ = o.Value("area", allowed, quantity.Area)
	if !o.Has("area") {
		op.Area = usualHole
		r.Assume(what+" area", "100 cm2", practice, 5)
	}
	if largest := max(box[0]*box[1], box[0]*box[2], box[1]*box[2]); op.Area > largest {
		r.Wrong(o.Get("area"), "", "%s: the opening is larger than the largest face of the box, %s", what, quantity.Format(largest, quantity.Area, quantity.Metric))
	}
	if d := o.Get("lined_duct"); d != nil && !d.None() {
		op.Duct = r.linedDuct(d, what+".lined_duct", op.Area, box)
	}
	r.mouthAt(o, &op)
	o.Done()
	return op
}

// mouth lists what is taken where a mouth does not say where it lies.
func (r *reader) mouth(what string, op *path.Opening) {
	switch {
	case op.To == "" && !op.AtStated && op.Role == "air pipe":
		r.Assume(what+" to", "the space that the box stands in, by the engine", practice, 5)
	case op.To == "" && !op.AtStated:
		r.Assume(what+" to", "its sound into the space round the box, its air as from outdoors", practice, 5)
	case op.To == "":
		r.Assume(what+" to", "the space that the box stands in", practice, 5)
	case !op.AtStated:
		r.Assume(what+" at", "somewhere by the engine, +-2 m", "judgement", 5)
	}
}

// checkBoxes checks the spaces that openings lead to.
func (r *reader) checkBoxes(o *decode.Object, l *path.Layout, spaces []string) {
	for _, x := range l.Enclosures {
		for i, op := range x.Openings {
			if op.To != "" {
				at := r.changedNode(o, l, "enclosures", x.Name, "openings")
				if i < len(at.Items) {
					_, at = at.Items[i].Find("to")
				}
				r.known(at, fmt.Sprintf("enclosures.%s.openings[%d] to", x.Name, i+1), op.To, spaces)
			}
		}
		if to := x.AirMouth.To; to != "" {
			r.known(r.changedNode(o, l, "enclosures", x.Name, "own_air_pipe"), fmt.Sprintf("enclosures.%s.own_air_pipe to", x.Name), to, spaces)
		}
	}
}

func (r *reader) linedDuct(n *decode.Node, what string, area float64, box [3]float64) *path.LinedDuct {
	o := r.Object(n, what)
	d := &path.LinedDuct{Length: o.OrAssume("length", quantity.Length, decode.Positive, 0.5, practice, 3)}
	if s := r.Lengths(o.Get("size"), what+" size", 2, 2, decode.Positive); s != nil {
		d.Size = [2]float64{s[0], s[1]}
		r.ductFits(o.Get("size"), what, d.Size, area, box)
	} else if !o.Has("size") {
		side := max(math.Sqrt(math.Max(area, 0)), 0.05)
		d.Size = [2]float64{side, side}
		r.Assume(what+" size", quantity.Format(side, quantity.Length, quantity.Metric)+" square", "the area of its opening", 2)
	}
	text := r.liningOf(o, "lining")
	if text == "" {
		text = "25 mm foam"
		if !o.Has("lining") {
			r.Assume(what+" lining", text, practice, 3)
		}
	}
	if text != "bare" {
		d.Lining, d.Thickness = splitLining(text)
	}
	d.Bends, _ = r.Whole(o.Get("bends"), what+" bends", 0, 20)
	d.Measured = r.Bands(o.Get("insertion_loss"), what+".insertion_loss")
	o.Done()
	return d
}
