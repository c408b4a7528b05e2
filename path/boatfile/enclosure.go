package boatfile

import (
	"fmt"
	"strings"

	"hushwake/path"
)

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
	e.Heat, _ = o.value("heat", positive, Power)
	var stated bool
	if e.OwnAirPipe, stated = o.flag("own_air_pipe"); !stated {
		r.assume(o.path+" own_air_pipe", "false: the engine breathes the air in the box", practice, 0)
	}
	e.Fan = r.fan(o)
	r.fanFits(o.get("fan"), &e)
	for i, item := range r.list(o.get("openings"), o.path+" openings", 0, many) {
		e.Openings = append(e.Openings, r.opening(item, fmt.Sprintf("%s.openings[%d]", o.path, i+1), e.Size))
	}
	if !o.has("openings") {
		r.assume(o.path+" openings", "none: a tight box", practice, 3)
	}
	e.Mounts = r.mounts(o.get("mounts"), o.path+".mounts")
	o.done()
	return e
}

// fan reads {flow, at_pressure}; a fan whose flow nobody knows is left out and listed.
func (r *reader) fan(o *object) *path.Fan {
	n := o.get("fan")
	if n == nil || isNone(n) {
		return nil
	}
	f := r.object(n, o.path+".fan")
	var fan path.Fan
	fan.Flow, _ = f.value("flow", positive, VolumeFlow)
	fan.Pressure, _ = f.value("at_pressure", positive, Pressure)
	f.done()
	if fan.Flow == 0 {
		r.assume(f.path+" flow", "unknown: the box is taken without a fan", practice, 0)
		return nil
	}
	return &fan
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
	op.Area, _ = o.value("area", allowed, Area)
	if !o.has("area") {
		op.Area = 0.01
		r.assume(what+" area", "100 cm2", practice, 5)
	}
	if largest := max(box[0]*box[1], box[0]*box[2], box[1]*box[2]); op.Area > largest {
		r.wrong(o.get("area"), "", "%s: the opening is larger than the largest face of the box, %s", what, Format(largest, Area, Metric))
	}
	if d := o.get("lined_duct"); d != nil && !isNone(d) {
		op.Duct = r.linedDuct(d, what+".lined_duct", op.Area, box)
	}
	o.done()
	return op
}

func (r *reader) linedDuct(n *node, what string, area float64, box [3]float64) *path.LinedDuct {
	o := r.object(n, what)
	d := &path.LinedDuct{Length: o.orAssume("length", Length, positive, 0.5, practice, 3)}
	if s := r.lengths(o.get("size"), what+" size", 2, 2, positive); s != nil {
		d.Size = [2]float64{s[0], s[1]}
		r.ductFits(o.get("size"), what, d.Size, area, box)
	} else if !o.has("size") {
		side := max(sqrt(area), 0.05)
		d.Size = [2]float64{side, side}
		r.assume(what+" size", Format(side, Length, Metric)+" square", "the area of its opening", 2)
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
	o.done()
	return d
}
