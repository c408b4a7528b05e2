package boatfile

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/room"
	"hushwake/source/said"
)

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
			r.Assume(o.Path+" size", said.Textf("{1.2 m} by {0.8 m} by {0.8 m}"), practice, 2)
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
		r.Assume(o.Path+" openings", said.Textf("an inlet and an outlet of {100 cm2} each; whether they cool the engine is not judged"), practice, 3)
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
