package proof

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/report/form"
	"hushwake/path/study/verify"
)

// A ratio is told without a unit, what has one with it.
func TestUnitsOfChecks(t *testing.T) {
	x := 0.25
	assert.Equal(t, "0.25", WithUnit(&x, "1"))
	assert.Equal(t, "0.25 dB", WithUnit(&x, "dB"))
	assert.Equal(t, "none", WithUnit(nil, "1"))
}

// No figure is told as a machine writes it.
func TestFiguresOfChecksArePlain(t *testing.T) {
	for v, want := range map[float64]string{100790: "100790", 343000.4: "343000", -2.5e9: "-2500000000", 0.0265: "0.0265", 1e-4: "0.0001",
		1.86681e-5: "1.8668 x 10^-5", -1e-12: "-1 x 10^-12", 0: "0"} {
		assert.Equal(t, want, Short(&v))
	}
	minus := math.Copysign(0, -1)
	assert.Equal(t, "0", Short(&minus))
}

// The last line counts the rows by their mark, and they are all of them.
func TestTheLastLineCounts(t *testing.T) {
	v := Verified{verify.Report{Passed: 2, Failed: 1, NotValidated: []string{"a boat"},
		Checks: []verify.Result{{What: "a", Mark: "read"}, {What: "b", Mark: "from memory"}, {What: "c", Mark: "read"}}}}
	all := v.Text(form.Units{}).Blocks
	assert.Equal(t, "2 hold, 1 fail; by mark:\n2 read, 1 from memory", strings.TrimSpace(all[len(all)-1].Words))
}
