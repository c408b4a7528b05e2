package silencer

import "reflect"

// copied is an element of its own with the same fields.
func copied(e Element) Element {
	out := reflect.New(reflect.TypeOf(e).Elem())
	out.Elem().Set(reflect.ValueOf(e).Elem())
	return out.Interface().(Element)
}

// Lagged is an element with other lagging round it.
func Lagged(e Element, l Lagging) Element {
	out := copied(e)
	out.Base().Lagging = l
	return out
}

// Heavier is an element with a wall twice as thick; false where its kind has no wall of its own to choose.
func Heavier(e Element) (Element, bool) {
	g := e.Form()
	bore := orDefault(g.Body, g.In)
	field := reflect.ValueOf(e).Elem().FieldByName("Wall")
	if !field.IsValid() || bore <= 0 {
		return e, false
	}
	out := copied(e)
	reflect.ValueOf(out).Elem().FieldByName("Wall").SetFloat(2 * orDefault(field.Float(), g.thickness(bore)))
	return out, true
}
