package boatfile

import (
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/layers"
	"hushwake/path/boatfile/quantity"
	"hushwake/source/said"
)

// mouthAt reads where the mouth of an opening or a pipe lies and looks.
func (r *reader) mouthAt(o *decode.Object, op *path.Opening) {
	op.To = o.Text("to")
	op.At, op.AtStated = r.Vector(o.Get("at"), o.Path+" at", decode.AnyValue)
	op.Facing = o.Word("facing", Facings...)
	if op.Role != "leak" {
		r.mouth(o.Path, op)
	}
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
		r.Assume(what+" area", said.Textf("{100 cm2}"), practice, 5)
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
		r.Assume(what+" at", said.Textf("somewhere by the engine, +-{2 m}"), "judgement", 5)
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
		r.Assume(what+" size", quantity.Said(side, quantity.Length)+" square", "the area of its opening", 2)
	}
	text := r.liningOf(o, "lining")
	if text == "" {
		text = "25 mm foam"
		if !o.Has("lining") {
			r.Assume(what+" lining", said.Textf("{25 mm} foam"), practice, 3)
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

// splitLining parts "25 mm foam" into material and thickness, m; 0 = not stated.
func splitLining(text string) (string, float64) {
	if l, _, err := layers.WithNote(text, nil); err == nil && l.Thickness > 0 && strings.ContainsAny(text, "0123456789") {
		return l.Material, l.Thickness
	}
	return text, 0
}

// usualHole is the area of a hole in a box that nobody has measured, m2 (common practice, no source).
const usualHole = 0.01
