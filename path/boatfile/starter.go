package boatfile

import (
	"fmt"
	"strings"

	"hushwake/testdata"
)

// StarterKinds names the commented boat files that can be begun with.
var StarterKinds = []string{"dry-stack", "generator-box", "three-quotes", "choice", "mine"}

// Starter gives a commented boat file to begin with; every layout in it runs.
func Starter(kind string) ([]byte, error) {
	for _, k := range StarterKinds {
		if k == kind {
			return testdata.Files.ReadFile(k + ".yaml")
		}
	}
	hint := didYouMean(kind, StarterKinds)
	if hint == "" {
		hint = "hushwake start " + StarterKinds[0]
	}
	return nil, fmt.Errorf("no starter %q; there are: %s\nhint: %s", clip(kind), strings.Join(StarterKinds, ", "), hint)
}
