package readings

import (
	"hushwake/path"
	"hushwake/path/scene"
)

// Predictions works layouts out: a host that keeps them from one text to the next brings its own.
type Predictions interface {
	// Session is one for the boat.
	Session(b *path.Boat) *scene.Session
	// Predict works a layout of the boat out; in full it passes by as well.
	Predict(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error)
}

// afresh works every layout out in a session of its own.
type afresh struct{ session *scene.Session }

func (a *afresh) Session(b *path.Boat) *scene.Session {
	a.session = scene.NewSession(b)
	return a.session
}

func (a *afresh) Predict(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error) {
	return Work(a.session, b, l, form)
}

// Work predicts a layout in a session; in full its pass-by belongs to it.
func Work(n *scene.Session, b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error) {
	p, err := n.PredictFor(b, l, form)
	if err == nil && form == path.Full {
		err = scene.PassBy(b, &p)
	}
	return p, err
}
