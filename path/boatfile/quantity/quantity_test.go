package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Factors by NIST Special Publication 811 (2008), appendix B.8, from memory, in its printed digits;
// the tolerance is half a unit of the last printed digit.
func TestUnitsAgainstSP811(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dim
		want float64
	}{
		{"1 in", Length, 2.54e-2}, {"1 ft", Length, 3.048e-1}, {"1 lb", Mass, 4.535924e-1}, {"1 psi", Pressure, 6.894757e3},
		{"1 inHg", Pressure, 3.386389e3}, {"1 inH2O", Pressure, 2.490889e2}, {"1 mmHg", Pressure, 1.333224e2}, {"1 mmH2O", Pressure, 9.80665},
		{"1 kgf/cm2", Pressure, 9.80665e4}, {"1 bar", Pressure, 1e5}, {"1 mbar", Pressure, 1e2}, {"1 US gal", Volume, 3.785412e-3}, {"1 imp gal", Volume, 4.54609e-3},
		{"1 cfm", VolumeFlow, 4.719474e-4}, {"1 gpm US", VolumeFlow, 6.309020e-5}, {"1 hp", Power, 7.456999e2}, {"1 PS", Power, 7.354988e2},
		{"1 lb/ft2", SurfaceMass, 4.882428}, {"1 lb/ft3", Density, 1.601846e1}, {"1 kn", Speed, 5.144444e-1}, {"1 ft/min", Speed, 5.08e-3},
		{"1 ft2", Area, 9.290304e-2}, {"1 in2", Area, 6.4516e-4}, {"1 in3", Volume, 1.638706e-5}, {"1 ft3", Volume, 2.831685e-2}, {"1 Btu/h", Power, 2.930711e-1},
	} {
		q, err := Parse(c.text, c.dim)
		require.NoError(t, err, c.text)
		assert.InEpsilon(t, c.want, q.Value, 5e-7, c.text)
	}
}

// Real bores: a nominal 5 in pipe of schedule 40 is 128.2 mm inside (ASME B36.10M, from memory), and
// the table's other rows follow from outside diameter less two walls, in mm of the metric tables.
func TestNominalPipe(t *testing.T) {
	for text, mm := range map[string]float64{
		"5 in sch 40": 128.2, "6 in sch 40": 154.1, "4 in sch 40": 102.3, "3 in sch 40": 77.9, "2 in schedule 40": 52.5, "1 1/2 in sch40": 40.9,
		"8 in sch 40": 202.7, "4 in sch 80": 97.2, "6\" sch. 80": 146.3, "4 in sch 10S": 108.2, "2 in BSP": 53.1, "1½ in BSP": 41.9, "2-1/2 in sch 40": 62.7,
	} {
		q, err := Parse(text, Length)
		require.NoError(t, err, text)
		assert.InDelta(t, mm, q.Value*1000, 0.051, text)
		assert.NotEmpty(t, q.Note, "%s must say how it was read", text)
	}
	for _, text := range []string{"7 in sch 40", "5 in sch 33", "12 in sch 40S", "9 in BSP", "5 in sch", "sch 40"} {
		_, err := Parse(text, Length)
		assert.Error(t, err, text)
	}
}

func TestQuantityForms(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dim
		want float64
	}{
		{"102 mm", Length, 0.102}, {"102mm", Length, 0.102}, {" 4 in ", Length, 0.1016}, {"1 5/8 in", Length, 0.041275}, {"2-1/2 in", Length, 0.0635}, {"5/8\"", Length, 0.015875},
		{"2½ in", Length, 0.0635}, {"½ in", Length, 0.0127}, {"5 ft 3 in", Length, 1.6002}, {"5' 3\"", Length, 1.6002}, {"5′ 3″", Length, 1.6002}, {"12'", Length, 3.6576},
		{"-5 ft 3 in", Length, -1.6002}, {"5 ft 3 1/2 in", Length, 1.6129}, {"-0.15 m", Length, -0.15}, {"\u22120.15 m", Length, -0.15}, {"1.2e3 mm", Length, 1.2}, {".5 m", Length, 0.5},
		{"150 hp", Power, 111854.98}, {"150 bhp", Power, 111854.98}, {"112 kW", Power, 112e3}, {"112 KW", Power, 112e3}, {"6.5 kWe", Power, 6500}, {"10 kVA", Power, 8000},
		{"1650 rpm", RotationalSpeed, 1650}, {"1650 RPM", RotationalSpeed, 1650}, {"6 kPa", Pressure, 6000}, {"24 inH2O", Pressure, 5978.13}, {"24 inches of water", Pressure, 5978.13}, {"24\" H2O", Pressure, 5978.13},
		{"2 inHg", Pressure, 6772.78}, {"2 in Hg", Pressure, 6772.78}, {"60 mbar", Pressure, 6000}, {"1.5 psi", Pressure, 10342.14}, {"62 Pa", Pressure, 62}, {"8 oz/in2", Pressure, 3447.38}, {"8 oz", Pressure, 3447.38},
		{"500 mm water", Pressure, 4903.325}, {"500 mmH2O", Pressure, 4903.325}, {"0.1 kg/cm²", Pressure, 9806.65}, {"0.1 bar", Pressure, 1e4},
		{"380 °C", Temperature, 653.15}, {"380 C", Temperature, 653.15}, {"716 F", Temperature, 653.15}, {"716 °F", Temperature, 653.15}, {"653.15 K", Temperature, 653.15}, {"380° C", Temperature, 653.15}, {"-40 F", Temperature, 233.15},
		{"18 L/min", VolumeFlow, 3e-4}, {"18 l/min", VolumeFlow, 3e-4}, {"12 m3/min", VolumeFlow, 0.2}, {"12 m³/min", VolumeFlow, 0.2}, {"4 gpm", VolumeFlow, 2.52361e-4}, {"2.5 L/h", VolumeFlow, 6.9444e-7}, {"720 m3/h", VolumeFlow, 0.2},
		{"0.3 kg/s", MassFlow, 0.3}, {"1080 kg/h", MassFlow, 0.3}, {"5 kg/m2", SurfaceMass, 5}, {"5 kg/m²", SurfaceMass, 5}, {"1 lb/ft2", SurfaceMass, 4.882428}, {"2.4 m2", Area, 2.4}, {"600 cm2", Area, 0.06},
		{"85 dB", Level, 85}, {"71 dBA", LevelA, 71}, {"71 dB(A)", LevelA, 71}, {"71 dB (A)", LevelA, 71}, {"90 dBC", LevelC, 90}, {"3 h", Duration, 3}, {"40 min", Duration, 2. / 3}, {"5 weeks", Duration, 840},
		{"7 kn", Speed, 3.60111}, {"343 m/s", Speed, 343}, {"250 g/kWh", Consumption, 6.9444e-8}, {"27 %", Fraction, 0.27}, {"27%", Fraction, 0.27}, {"90 deg", Angle, math.Pi / 2}, {"90°", Angle, math.Pi / 2},
		{"1.6 /L", PerVolume, 1600}, {"10000 Pa.s/m2", FlowResistivity, 1e4}, {"10000 Pa·s/m²", FlowResistivity, 1e4}, {"18 L/m", CrossSection, 0.018}, {"50 Hz", Frequency, 50}, {"8 kHz", Frequency, 8000}, {"6 L", Volume, 6e-3}, {"3", Number, 3},
		{"1.204 kg/m3", Density, 1.204}, {"80 mm hole", Area, math.Pi / 4 * 0.0064}, {"one 4 in hole", Area, math.Pi / 4 * 0.1016 * 0.1016}, {"two round 100 mm holes", Area, math.Pi / 2 * 0.01},
		{"300 mm x 200 mm", Area, 0.06}, {"1 ft × 6 in", Area, 0.04645152},
	} {
		q, err := Parse(c.text, c.dim)
		if assert.NoError(t, err, c.text) {
			assert.InEpsilon(t, c.want, q.Value, 1e-5, c.text)
		}
	}
}

func TestQuantityRefusals(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dim
		say  string // must stand in the error
	}{
		{"102", Length, "no unit"}, {"5 kg", Length, "is a mass"}, {"5 mmm", Length, `did you mean "mm"`}, {"1,200 mm", Length, "write 1200 mm or 1.200 mm"}, {"2,5 m", Length, "write 2.5"},
		{"1 200 mm", Length, "write 1200"}, {"1.234.567 mm", Length, "thousands"}, {"1_000 mm", Length, "write 1000"}, {"NaN m", Length, "not a number"}, {"inf m", Length, "not a number"}, {"-.inf m", Length, "not a number"},
		{"1e400 m", Length, "no number"}, {"0x10 m", Length, "unknown unit"}, {"", Length, "begin with a number"}, {"mm", Length, "begin with a number"}, {"5/0 in", Length, "divides"}, {"1 7/5 in", Length, "below one"},
		{"5 ft 13 in", Length, "twelve"}, {"5 ft 3 mm", Length, "feet and inches"}, {"85 dB", LevelA, "write 85 dBA"}, {"300 x 200 mm", Area, "write 300 mm x 200 mm"}, {"300 x wide", Area, "both sides"}, {"4 kg hole", Area, "is a mass"}, {"71 dBA", Level, "A-weighted"}, {"-300 C", Temperature, "absolute zero"}, {"6 kPa", Length, "is a pressure"},
		{"0.27", Fraction, "write 27 %"}, {"7 kt/h", Speed, "unknown unit"}, {strings.Repeat("9", 200), Length, "too long"}, {"1e308 km", Length, "out of range"},
	} {
		_, err := Parse(c.text, c.dim)
		if assert.Error(t, err, c.text) {
			assert.Contains(t, err.Error(), c.say, c.text)
		}
	}
}

// An inch of mercury is 13.6 inches of water: the slip that owners make most.
func TestMercuryAgainstWater(t *testing.T) {
	hg, err := Parse("1 inHg", Pressure)
	require.NoError(t, err)
	water, err := Parse("1 inH2O", Pressure)
	require.NoError(t, err)
	assert.InDelta(t, 13.595, hg.Value/water.Value, 0.001) // relative density of mercury at 0 C, 13.5951
}

// What is printed reads back as the same value, in both systems and for every kind.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Dim(rapid.IntRange(int(Length), int(Number)).Draw(t, "dim"))
		s := System(rapid.IntRange(0, 1).Draw(t, "system"))
		v := rapid.Float64Range(0.01, 1e4).Draw(t, "value")
		p := printedAs(d, s)
		si := v*p.factor + p.offset
		text := Format(si, d, s)
		q, err := Parse(text, d)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		step := math.Pow(10, -float64(p.decimal)) * p.factor // printed to this step or to two digits
		if d == Length && s == Metric {
			step = 1e-3
		}
		if diff := math.Abs(q.Value - si); diff > 0.51*step && diff > 0.051*math.Abs(si) {
			t.Fatalf("%g printed as %q reads %g", si, text, q.Value)
		}
	})
}

func TestFormat(t *testing.T) {
	assert.Equal(t, "102 mm", Format(0.102, Length, Metric))
	assert.Equal(t, "4.02 in", Format(0.102, Length, Imperial))
	assert.Equal(t, "1.2 m", Format(1.2, Length, Metric))
	assert.Equal(t, "380 °C", Format(653.15, Temperature, Metric))
	assert.Equal(t, "716 °F", Format(653.15, Temperature, Imperial))
	assert.Equal(t, "24.1 in H₂O", Format(6000, Pressure, Imperial))
	assert.Equal(t, "34 in H₂O", FormatTo(8500, Pressure, Imperial, 2))
	assert.Equal(t, "571 in H₂O", FormatTo(142.3e3, Pressure, Imperial, 2), "digits before the point stay")
	assert.Equal(t, "0 kPa", FormatTo(0, Pressure, Metric, 2))
	q, err := Parse(Format(6000, Pressure, Imperial), Pressure)
	require.NoError(t, err)
	assert.InDelta(t, 6000, q.Value, 12, "what is printed can be read")
	assert.Equal(t, "none", Format(math.NaN(), Pressure, Metric))
	assert.Equal(t, "0 mm", Format(-1e-9, Length, Metric)[:4])
	_, err = ParseSystem("furlongs")
	assert.ErrorContains(t, err, "hint: metric or imperial")
}

func FuzzParseQuantity(f *testing.F) {
	for _, s := range []string{"102 mm", "1 5/8 in", "5' 3\"", "5 in sch 40", "1,2 m", "½", "NaN", "-", "1 2/3/4 in", "9e9e9 m", "5 in BSP", "°", "\xff"} {
		f.Add(s, byte(1))
	}
	f.Fuzz(func(t *testing.T, s string, d byte) {
		q, err := Parse(s, Dim(int(d)%int(Number)+1), Number)
		if err == nil && (math.IsNaN(q.Value) || math.IsInf(q.Value, 0)) {
			t.Fatalf("%q gives %v", s, q.Value)
		}
	})
}
