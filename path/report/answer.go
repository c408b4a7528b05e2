package report

// Answer is one answer in its three forms.
type Answer interface {
	Document() any // marshals to JSON; a value that does not exist is null, an empty list []
	Sheet() Sheet
	Text(Units) *Text
}

// Sheet is rows of cells, the names of the columns first.
type Sheet [][]string

// add appends a row.
func (s *Sheet) add(cells ...string) { *s = append(*s, cells) }

// Failure is an error that is not the fault of what was asked.
type Failure struct{ Err error }

func (f *Failure) Error() string { return f.Err.Error() }
func (f *Failure) Unwrap() error { return f.Err }
