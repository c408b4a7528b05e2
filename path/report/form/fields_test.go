package form

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A field of the file is told in words, whatever names it holds.
func TestFieldsInWords(t *testing.T) {
	for field, want := range map[string]string{
		"partitions.awning open_area":                                      "awning: open area",
		"engines.main.exhaust.air_fuel_ratio":                              "main, exhaust, air-fuel ratio",
		"spaces.wheelhouse.faces.floor build_up carpet":                    "wheelhouse, floor build-up carpet",
		"enclosures.sound box.openings[2].lined_duct length":               "sound box, opening 2, lined duct length",
		"readings[2] plus_minus":                                           "reading 2: plus or minus",
		"layouts.dry riser, water after the top.main.line: wall of hose 5": "dry riser, water after the top, main, line: wall of hose 5",
		"spaces.No. 2 hold lining":                                         "No. 2 hold lining",
		"listeners.helm background":                                        "helm background",
		"fuel":                                                             "fuel",
		"":                                                                 "",
	} {
		assert.Equal(t, want, FieldWords(field))
	}
}
