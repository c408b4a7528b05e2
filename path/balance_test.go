package path_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"hushwake/path"
	"hushwake/path/boatfile"
)

func TestTmp(t *testing.T) {
	defer path.WithoutMachinery()()
	b := fileBoat(t, "/tmp/a1/faults/bare.yaml")
	p := predict(t, b, b.Layouts[0])
	for _, r := range p.Listeners[0].Routes {
		fmt.Println(r.Source, r.Route, r.DBA())
	}
}
func fileBoat(t testing.TB, name string) *path.Boat {
	b, err := boatfile.LoadFile(name)
	require.NoError(t, err)
	return b
}
