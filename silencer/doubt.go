package silencer

// Mixed is one of several shared causes of one doubt.
type Mixed struct {
	Key    string  // what is shared: equal keys move together
	Weight float64 // squares of the weights add to 1; may be negative
}
