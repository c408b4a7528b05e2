package main

import (
	"github.com/spf13/pflag"

	"hushwake/path"
)

// pick names one element of one line and the seat it is judged at.
type pick struct {
	layout, engine, element, listener string
}

// flags adds the flags of a pick with a word on the element and on the listener.
func (p *pick) flags(f *pflag.FlagSet, element, listener string) {
	f.StringVar(&p.layout, "layout", "", "the layout, by name or 1-based place; default the first")
	f.StringVar(&p.engine, "engine", "", "the engine whose line it is")
	f.StringVar(&p.element, "element", "", element+", by name or 1-based place")
	f.StringVar(&p.listener, "listener", "", listener+"; default the first")
}

// picked is a pick found in a file.
type picked struct {
	boat     *path.Boat
	at       chosen
	listener int
}

// load reads the file and finds what was picked.
func (p *pick) load(c *common, file string) (out picked, err error) {
	if out.boat, err = c.load(file); err != nil {
		return out, err
	}
	l, err := chooseLayout(out.boat, p.layout)
	if err != nil {
		return out, err
	}
	if out.at, err = chooseElement(l, p.engine, p.element); err != nil {
		return out, err
	}
	out.listener, err = listenerIndex(out.boat, p.listener)
	return out, err
}
