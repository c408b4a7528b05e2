package chambers

import "hushwake/testdata/turns"

// Properties are tried 40 times, a hundred times where all is wanted.
var _ = turns.Checks("40")
