package verify

import "hushwake/source/published"

// owners are none: a page in a browser runs no checks, so none of them is in its program.
var owners []published.Values
