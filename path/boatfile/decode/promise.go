package decode

import (
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

// Stated reads a promised or measured value of a mapping, which may be a bound or a span.
func (o *Object) Stated(key string, lim Limits, dims ...quantity.Dim) (quantity.Quantity, bool) {
	return o.r.parsed(o.Get(key), o.Path+" "+key, lim, quantity.ParseStated, dims...)
}

// Promise is a stated value that may be a bound on one side only.
func (o *Object) Promise(key string, lim Limits, fits quantity.Hedge, dims ...quantity.Dim) (quantity.Quantity, bool) {
	q, ok := o.Stated(key, lim, dims...)
	if wrong := map[quantity.Hedge]quantity.Hedge{quantity.AtMost: quantity.AtLeast, quantity.AtLeast: quantity.AtMost}[fits]; ok && q.Says == wrong {
		o.r.Wrong(o.Get(key), "write "+map[quantity.Hedge]string{quantity.AtMost: "at most ", quantity.AtLeast: "at least "}[fits]+strings.TrimSpace(quantity.FirstFigure(q.Text))+" if that is what was meant",
			"%s %s: %q bounds it on the side that helps nobody", o.Path, key, spelling.Clip(q.Text))
		return q, false
	}
	return q, ok
}
