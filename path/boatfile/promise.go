package boatfile

import (
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

// stated reads a promised or measured value of a mapping, which may be a bound or a span.
func (o *object) stated(key string, lim limits, dims ...quantity.Dim) (quantity.Quantity, bool) {
	return o.r.parsed(o.get(key), o.path+" "+key, lim, quantity.ParseStated, dims...)
}

// promise is a stated value that may be a bound on one side only.
func (o *object) promise(key string, lim limits, fits quantity.Hedge, dims ...quantity.Dim) (quantity.Quantity, bool) {
	q, ok := o.stated(key, lim, dims...)
	if wrong := map[quantity.Hedge]quantity.Hedge{quantity.AtMost: quantity.AtLeast, quantity.AtLeast: quantity.AtMost}[fits]; ok && q.Says == wrong {
		o.r.wrong(o.get(key), "write "+map[quantity.Hedge]string{quantity.AtMost: "at most ", quantity.AtLeast: "at least "}[fits]+strings.TrimSpace(quantity.FirstFigure(q.Text))+" if that is what was meant",
			"%s %s: %q bounds it on the side that helps nobody", o.path, key, spelling.Clip(q.Text))
		return q, false
	}
	return q, ok
}
