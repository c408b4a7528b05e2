// Package published is how a package binds the published values that it can be held against to its own code: a name, and
// a function from the numbers of a row to our value, in SI unless the function says otherwise; and how it cites them.
package published

import "fmt"

// Value computes our value of a published check from the numbers of its row.
type Value func(args []float64) (float64, error)

// Values are what a package has been held against, by name: its own, a dot, and what is computed.
type Values map[string]Value

// Args refuses a row with another number of arguments than the function takes.
func Args(n int, f Value) Value {
	return func(args []float64) (float64, error) {
		if len(args) != n {
			return 0, fmt.Errorf("the row has %d arguments, the function takes %d", len(args), n)
		}
		return f(args)
	}
}

// One is a function of one number.
func One(f func(float64) float64) Value {
	return Args(1, func(a []float64) (float64, error) { return f(a[0]), nil })
}

// Two is a function of two numbers.
func Two(f func(a, b float64) float64) Value {
	return Args(2, func(a []float64) (float64, error) { return f(a[0], a[1]), nil })
}
