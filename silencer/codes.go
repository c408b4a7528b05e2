package silencer

// Codes of findings that others act on.
const (
	CodeOverLimit  = "OVER-LIMIT"
	CodeAskFirst   = "ASK-FIRST"
	CodeDoesNotFit = "DOES-NOT-FIT"
	CodeTooLong    = "TOO-LONG"
	CodeTight      = "TIGHT-FIT"
	CodeHatch      = "WILL-NOT-PASS-HATCH"
)
