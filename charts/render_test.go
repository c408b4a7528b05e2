package charts

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLook(t *testing.T) {
	b := startBrowser(t)
	for name, r := range map[string]*Report{"full": full(), "small": sample(1, 1)} {
		for _, w := range []int{1280, 390} {
			for _, dark := range []bool{false, true} {
				b.size(w, dark)
				path := b.open(r)
				assert.Empty(t, b.complaints(path))
				b.eval(`document.querySelectorAll('details.more').forEach(function (d) { d.open = true; })`, nil)
				b.pictures(fmt.Sprintf("%s-%d-%v", name, w, dark))
			}
		}
		if dir := os.Getenv("HUSHWAKE_PICTURES"); dir != "" {
			_ = os.WriteFile(filepath.Join(dir, name+".pdf"), b.pdf(), 0o600)
		}
	}
}
