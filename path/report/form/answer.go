// Package form is what an answer is made of: a document, a sheet and a text, numbers that may not exist, tables,
// names, and the units in which sentences speak.
package form

// Answer is one answer in its three forms.
type Answer interface {
	Document() any // marshals to JSON; a value that does not exist is null, an empty list []
	Sheet() Sheet
	Text(Units) *Text
}

// Sheet is rows of cells, the names of the columns first.
type Sheet [][]string

// Add appends a row.
func (s *Sheet) Add(cells ...string) { *s = append(*s, cells) }

// Failure is an error that is not the fault of what was asked.
type Failure struct{ Err error }

func (f *Failure) Error() string { return f.Err.Error() }
func (f *Failure) Unwrap() error { return f.Err }

// Version is the state of the program that documents name.
const Version = "0.1.0"
