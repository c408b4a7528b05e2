package report

import "hushwake/path"

// Ahead begins beside a comparison what its page asks for whatever comes of it: the published checks, and the engines of
// the layout on board, else of the first, at the speeds of the page. What is worked out is remembered and the same at any
// time: who doesn't wait for it loses nothing but time.
func Ahead(b *path.Boat) {
	if len(b.Layouts) == 0 {
		return
	}
	l := b.Layouts[0]
	if now, _, told := b.Present(); told {
		l = now
	}
	go func() {
		verified()
		over := dutiesOf([]*path.Layout{l})
		for _, at := range over.At {
			engines := over.Of(l, at).Engines
			for i := range engines {
				if !engines[i].Stopped {
					path.Points.Sources(&engines[i]) // an error comes back when it is asked for
				}
			}
		}
	}()
}
