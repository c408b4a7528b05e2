package silencer

// Codes of findings that others lean on.
const (
	CodeDoesNotFit = "DOES-NOT-FIT" // wider over lagging than its envelope allows
	CodeTooLong    = "TOO-LONG"     // longer than its envelope
)
