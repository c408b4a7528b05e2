package interview

import "hushwake/testdata/turns"

// Properties are tried 30 times, a hundred times where all is wanted.
var _ = turns.Checks("30")
