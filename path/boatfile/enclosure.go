package boatfile

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/room"
)

// usualHole is the area of a hole in a box that nobody has measured, m2 (common practice, no source).
const usualHole = 0.01

func (r *reader) enclosures(n *node) []path.Enclosure {
	var out []path.Enclosure
	for i, k := range r.section(n, "enclosures").keys {
		out = append(out, r.enclosure(k.text, n.values[i]))
	}
	return out
}

func (r *reader) enclosure(name string, n *node) path.Enclosure {
	o := r.object(n, "enclosures."+name)
	e := path.Enclosure{Name: name}
	var ok bool
	if e.Size, ok = r.vector(o.get("size"), o.path+" size", upTo(50)); !ok {
		e.Size = [3]float64{1.2, 0.8, 0.8}
		if !o.has("size") {
			r.assume(o.path+" size", "1.2 m by 0.8 m by 0.8 m", practice, 2)
		}
	}
	if e.BuildUp = r.buildUp(o.get("build_up"), o.path); !o.has("build_up") {
		e.BuildUp = r.assumedBuildUp(o.path)
	}
	r.boxLining(o, &e)
	e.Heat, _ = o.value("heat", positive, quantity.Power)
	r.ownAir(o, &e)
	e.Limit, _ = o.value("limit", limits{min: 273.15, max: 473.15, openMin: true}, quantity.Temperature)
	if e.Gap, _ = o.value("gap", positive, quantity.Length); e.Gap > 0 && 2*e.Gap >= min(e.Size[0], e.Size[1]) {
		r.wrong(o.get("gap"), "", "%s gap: twice %s leaves no room for an engine in the box", o.path, quantity.Format(e.Gap, quantity.Length, quantity.Metric))
	}
	e.Door = r.door(o)
	e.Fan = r.fan(o)
	r.fanFits(o.get("fan"), &e)
	for i, item := range r.list(o.get("openings"), o.path+" openings", 0, many) {
		e.Openings = append(e.Openings, r.opening(item, fmt.Sprintf("%s.openings[%d]", o.path, i+1), e.Size))
	}
	if !o.has("openings") {
		e.HolesUnknown, e.Openings = true, []path.Opening{{Role: "inlet", Area: usualHole}, {Role: "outlet", Area: usualHole}}
		r.assume(o.path+" openings", "an inlet and an outlet of 100 cm2 each; whether they cool the engine is not judged", practice, 3)
	}
	e.Mounts = r.mounts(o.get("mounts"), o.path+".mounts")
	o.done()
	return e
}

// ownAir reads own_air_pipe: true, false, or the pipe's sizes.
func (r *reader) ownAir(o *object, e *path.Enclosure) {
	n := o.get("own_air_pipe")
	if n == nil {
		r.assume(o.path+" own_air_pipe", "false: the engine breathes the air in the box", practice, 0)
		return
	}
	e.AirMouth.Role = "air pipe"
	if n.kind != mapping {
		if e.OwnAirPipe, _ = o.flag("own_air_pipe"); e.OwnAirPipe {
			r.mouth(o.path+".own_air_pipe", &e.AirMouth)
		}
		return
	}
	p := r.object(n, o.path+".own_air_pipe")
	pipe := room.AirPipe{Length: p.orAssume("length", quantity.Length, positive, 1, practice, 0)}
	pipe.Bends, _ = r.whole(p.get("bends"), p.path+" bends", 0, 20)
	pipe.Bore, _ = p.value("bore", positive, quantity.Length)
	if e.OwnAirPipe = true; pipe.Bore > 0 {
		e.AirPipe = &pipe
	}
	e.AirMouth.Area = math.Pi / 4 * pipe.Bore * pipe.Bore
	r.mouthAt(p, &e.AirMouth)
	if loss := r.bands(p.get("insertion_loss"), p.path+".insertion_loss"); loss != nil {
		e.AirMouth.Duct = &path.LinedDuct{Measured: loss}
	}
	if p.done(); e.AirPipe == nil {
		r.assume(p.path+" bore", "wide enough", practice, 0)
	}
}

// mouthAt reads where the mouth of an opening or a pipe lies and looks.
func (r *reader) mouthAt(o *object, op *path.Opening) {
	op.To = o.text("to")
	op.At, op.AtStated = r.vector(o.get("at"), o.path+" at", anyValue)
	op.Facing = o.word("facing", facings...)
	if op.Role != "leak" {
		r.mouth(o.path, op)
	}
}

// door reads {seal_length, gap}.
func (r *reader) door(o *object) *path.Door {
	n := o.get("door")
	if n == nil || isNone(n) {
		return nil
	}
	d := r.object(n, o.path+".door")
	out := path.Door{Seal: d.orAssume("seal_length", quantity.Length, positive, 3, practice, 2), Gap: d.orAssume("gap", quantity.Length, limits{max: 0.1}, 0.0005, practice, 3)}
	d.done()
	return &out
}

// fan reads {flow, at_pressure} or {curve}; a fan whose flow nobody knows is left out and listed.
func (r *reader) fan(o *object) *path.Fan {
	n := o.get("fan")
	if n == nil || isNone(n) {
		return nil
	}
	f := r.object(n, o.path+".fan")
	var fan path.Fan
	fan.Flow, _ = f.value("flow", positive, quantity.VolumeFlow)
	fan.Pressure, _ = f.value("at_pressure", positive, quantity.Pressure)
	fan.Curve = r.fanCurve(f)
	fan.SoundPower, _ = f.value("sound_power", limits{min: 20, max: 140}, quantity.LevelA)
	if fan.Curve != nil && fan.Flow > 0 {
		r.wrong(f.get("flow"), "leave out flow and at_pressure", "%s has a curve and a duty point", f.path)
	}
	fan.Stopped = f.word("running", "stopped") != ""
	fan.IgnitionProof, _ = f.flag("ignition_protected")
	f.done()
	if fan.Flow == 0 && fan.Curve == nil {
		r.assume(f.path+" flow", "unknown: the box is taken without a fan", practice, 0)
		return nil
	}
	return &fan
}

// fanCurve reads [[flow, pressure], ...].
func (r *reader) fanCurve(f *object) []room.FanPoint {
	n := f.get("curve")
	var out []room.FanPoint
	for _, item := range r.list(n, f.path+" curve", 2, 50) {
		pair := r.list(item, f.path+" curve", 2, 2)
		if len(pair) != 2 {
			return nil
		}
		q, ok := r.quantity(pair[0], f.path+" curve", notNegative, quantity.VolumeFlow)
		p, too := r.quantity(pair[1], f.path+" curve", notNegative, quantity.Pressure)
		if !ok || !too {
			return nil
		}
		out = append(out, room.FanPoint{Flow: q.Value, Pressure: p.Value})
	}
	if len(out) == 0 {
		return nil
	}
	if err := (&room.Fan{Curve: out}).Check(); err != nil {
		r.fail(n, f.path, err)
		return nil
	}
	return out
}

func isNone(n *node) bool {
	return n.kind == scalar && strings.EqualFold(strings.TrimSpace(n.text), "none")
}

// boxLining reads "25 mm foam"; a lining without a thickness keeps that of its row in the table.
func (r *reader) boxLining(o *object, e *path.Enclosure) {
	text := o.lining("lining")
	switch {
	case !o.has("lining"):
		r.assume(o.path+" lining", "bare", practice, 3)
		return
	case text == "bare" || text == "":
		return
	}
	e.Lining, e.Thickness = splitLining(text)
}

// splitLining parts "25 mm foam" into material and thickness, m; 0 = not stated.
func splitLining(text string) (string, float64) {
	if l, _, err := parseLayer(text, nil); err == nil && l.Thickness > 0 && strings.ContainsAny(text, "0123456789") {
		return l.Material, l.Thickness
	}
	return text, 0
}

func (r *reader) opening(n *node, what string, box [3]float64) path.Opening {
	o := r.object(n, what)
	op := path.Opening{Role: o.word("role", "inlet", "outlet", "leak")}
	if op.Role == "" && !o.has("role") {
		op.Role = "inlet"
		r.assume(what+" role", "inlet", practice, 0)
	}
	allowed := positive
	if op.Role == "leak" {
		allowed = notNegative // none at all, instead of the leak that is assumed
	}
	op.Area, _ = o.value("area", allowed, quantity.Area)
	if !o.has("area") {
		op.Area = usualHole
		r.assume(what+" area", "100 cm2", practice, 5)
	}
	if largest := max(box[0]*box[1], box[0]*box[2], box[1]*box[2]); op.Area > largest {
		r.wrong(o.get("area"), "", "%s: the opening is larger than the largest face of the box, %s", what, quantity.Format(largest, quantity.Area, quantity.Metric))
	}
	if d := o.get("lined_duct"); d != nil && !isNone(d) {
		op.Duct = r.linedDuct(d, what+".lined_duct", op.Area, box)
	}
	r.mouthAt(o, &op)
	o.done()
	return op
}

// mouth lists what is taken where a mouth does not say where it lies.
func (r *reader) mouth(what string, op *path.Opening) {
	switch {
	case op.To == "" && !op.AtStated && op.Role == "air pipe":
		r.assume(what+" to", "the space that the box stands in, by the engine", practice, 5)
	case op.To == "" && !op.AtStated:
		r.assume(what+" to", "its sound into the space round the box, its air as from outdoors", practice, 5)
	case op.To == "":
		r.assume(what+" to", "the space that the box stands in", practice, 5)
	case !op.AtStated:
		r.assume(what+" at", "somewhere by the engine, +-2 m", "judgement", 5)
	}
}

// checkBoxes checks the spaces that openings lead to.
func (r *reader) checkBoxes(o *object, l *path.Layout, spaces []string) {
	for _, x := range l.Enclosures {
		for i, op := range x.Openings {
			if op.To != "" {
				at := r.changedNode(o, l, "enclosures", x.Name, "openings")
				if i < len(at.items) {
					_, at = at.items[i].find("to")
				}
				r.known(at, fmt.Sprintf("enclosures.%s.openings[%d] to", x.Name, i+1), op.To, spaces)
			}
		}
		if to := x.AirMouth.To; to != "" {
			r.known(r.changedNode(o, l, "enclosures", x.Name, "own_air_pipe"), fmt.Sprintf("enclosures.%s.own_air_pipe to", x.Name), to, spaces)
		}
	}
}

func (r *reader) linedDuct(n *node, what string, area float64, box [3]float64) *path.LinedDuct {
	o := r.object(n, what)
	d := &path.LinedDuct{Length: o.orAssume("length", quantity.Length, positive, 0.5, practice, 3)}
	if s := r.lengths(o.get("size"), what+" size", 2, 2, positive); s != nil {
		d.Size = [2]float64{s[0], s[1]}
		r.ductFits(o.get("size"), what, d.Size, area, box)
	} else if !o.has("size") {
		side := max(sqrt(area), 0.05)
		d.Size = [2]float64{side, side}
		r.assume(what+" size", quantity.Format(side, quantity.Length, quantity.Metric)+" square", "the area of its opening", 2)
	}
	text := o.lining("lining")
	if text == "" {
		text = "25 mm foam"
		if !o.has("lining") {
			r.assume(what+" lining", text, practice, 3)
		}
	}
	if text != "bare" {
		d.Lining, d.Thickness = splitLining(text)
	}
	d.Bends, _ = r.whole(o.get("bends"), what+" bends", 0, 20)
	d.Measured = r.bands(o.get("insertion_loss"), what+".insertion_loss")
	o.done()
	return d
}
