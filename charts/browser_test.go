package charts

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/charts/browsertest"
	"hushwake/path/report"
)

func TestMain(m *testing.M) { browsertest.Main(m) }

// browser is what reads the pages of this package.
type browser struct{ *browsertest.Browser }

func startBrowser(t *testing.T) *browser { return &browser{browsertest.Start(t)} }

// open writes the page to a file and opens it.
func (b *browser) open(r *report.Page) string {
	b.T.Helper()
	path := filepath.Join(b.T.TempDir(), "report.html")
	require.NoError(b.T, os.WriteFile(path, written(b.T, r), 0o600))
	b.Visit(path)
	return path
}
