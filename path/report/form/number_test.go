package form

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path/boatfile/quantity"
	"hushwake/source/spectrum"
)

// A value that does not exist is nil; units of documents are those that their keys name.
func TestNumbers(t *testing.T) {
	assert.Nil(t, Num(math.NaN()))
	assert.Nil(t, Num(math.Inf(-1)))
	assert.Nil(t, NumOr(nil, 2))
	assert.Nil(t, Level(spectrum.Silent))
	assert.Equal(t, 1.234567, *Num(1.2345671))
	assert.Equal(t, 71.235, *Level(71.23456))
	assert.InDelta(t, 100, *Celsius(373.15), 1e-9, "water boils")
	assert.InDelta(t, 101.325, *Kilopascal(101325), 1e-9, "one atmosphere")
	assert.NotNil(t, List[string](nil))
	assert.NotNil(t, Each[string, string](nil, nil))
	assert.Equal(t, "", Field(nil))
	assert.Equal(t, "0.5", Field(Num(0.5)))
	assert.Nil(t, BandLevels(spectrum.Fill(spectrum.Silent))[0])
}

// The same value in both systems: 1 kPa is 4.0146 inches of conventional water (NIST SP 811, 2008, table B.8), 100 °C 212 °F,
// a rise of 10 K one of 18 °F, 3.048 m ten feet, 1 hp 745.7 W.
func TestUnits(t *testing.T) {
	metric, imperial := Units{}, Units{System: quantity.Imperial}
	pa, k := 1000.0, 373.15
	assert.Equal(t, "1 kPa", metric.Reading(&pa, "Pa"))
	assert.Equal(t, "4 in H₂O", imperial.Reading(&pa, "Pa"))
	assert.Equal(t, "212 °F", imperial.Reading(&k, "K"))
	assert.Equal(t, "-", imperial.Reading(nil, "K"))
	assert.Equal(t, "1000.0 dB", imperial.Reading(&pa, "dB"))
	assert.Equal(t, "10 °C", metric.Warmer(10))
	assert.Equal(t, "18 °F", imperial.Warmer(10))
	assert.Equal(t, "3.0 m", metric.Way(3.048))
	assert.Equal(t, "10 ft", imperial.Way(3.048))
	assert.Equal(t, "85 kW", metric.Power(85e3))
	assert.Equal(t, "114 hp", imperial.Power(85e3))
	assert.Equal(t, "60 Pa", metric.Draught(60))
	assert.Equal(t, "0.24 in H₂O", imperial.Draught(60))
	assert.Equal(t, "71 (65-78)", LevelText(71.2, 65.4, 77.6))
	assert.Equal(t, "silent (-)", LevelText(-5, -9, -1))
	assert.Equal(t, "? (61-87)", LevelText(math.NaN(), 61, 87), "a layout to be asked about")
	assert.Equal(t, "0.0", Signed(-0.01))
}

func TestTables(t *testing.T) {
	tb := NewTable("name", ">dB")
	assert.Equal(t, []Column{{"name", false}, {"dB", true}}, tb.Columns)
	bands := spectrum.Fill(-0.04)
	bands[1] = spectrum.Silent
	cells := BandCells("x", bands, 1)
	assert.Equal(t, []string{"x", "0.0", "-"}, cells[:3], "no minus zero, a dash where silent")
	assert.Len(t, cells, len(BandTable("x").Columns))
}

func TestNames(t *testing.T) {
	err := Unknown("layout", "dri", []string{"dry", "wet"})
	assert.EqualError(t, err, "no layout named \"dri\"\nhint: did you mean dry? the file has: dry; wet")
	assert.EqualError(t, Unknown("box", "x", nil), "no box named \"x\"\nhint: there is none in the file")
	assert.Equal(t, `'say "a"', "b" and 2 more`, QuotedList([]string{`say "a"`, "b", "c", "d"}, 2))
	assert.Equal(t, []string{"a", "b"}, Unique([]string{"a", "b", "a"}))
	assert.Equal(t, "Ends here.", Sentence(" ends here"))
	assert.Equal(t, "Does it?", Sentence("does it?"))
}
