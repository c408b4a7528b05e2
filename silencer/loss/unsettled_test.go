package loss_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/loss"
)

// Where the steps to a skin temperature run to and fro, as under a lagging whose conductivity leaps,
// the line says how far it is in doubt; with wool it says nothing.
func TestAnUnsettledWallIsSaid(t *testing.T) {
	defer loss.WithLagging(loss.LaggingMaterial{Material: "leap", K50: 0.04, K100: 0.2, K300: 0.04})()
	for material, unsettled := range map[string]bool{"leap": true, "mineral wool": false} {
		lag := silencer.Lagging{Thickness: 0.003, Material: material}
		plain := silencer.Pipe{Common: silencer.Common{Name: "down pipe", Lagging: lag}, Bore: 0.05, Length: 0.5}
		twin := plain
		for where, e := range map[string]silencer.Element{"alone": &plain, "in a branch": &silencer.Parallel{Branches: [][]silencer.Element{{&plain}, {&twin}}}} {
			m, err := linetest.Between(e).March(linetest.Exhaust(0.02, 650), silencer.Options{})
			require.NoError(t, err)
			assert.Equal(t, unsettled, strings.Contains(strings.Join(m.Warnings, "\n"), "down pipe: the temperature of its outside did not settle in 40 steps"), "%s %s: %q", material, where, m.Warnings)
		}
	}
}
