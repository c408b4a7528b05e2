package onboard

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// Without readings there is nothing to calibrate to, and that is said with what to do.
func TestCalibratedByNothing(t *testing.T) {
	_, err := NewCalibrated(&path.Boat{File: "x.yaml"}, nil)
	require.ErrorContains(t, err, "hushwake survey x.yaml")
}
