package quantity

import (
	"strings"
	"unicode/utf8"
)

// Dim is a kind of quantity.
type Dim int

// Kinds of quantity that a boat file or the command line can hold.
const (
	Length Dim = iota + 1
	Area
	Volume
	Speed
	Power
	RotationalSpeed // rpm inside, as everywhere in the program
	Pressure
	MassFlow
	VolumeFlow
	Temperature
	Mass
	SurfaceMass
	Density
	Level  // dB, no weighting
	LevelA // dB(A)
	LevelC // dB(C)
	Duration
	Frequency
	Angle
	Fraction
	Consumption // kg/J
	FlowResistivity
	CrossSection // m2 as a volume per length
	PerVolume    // price of a volume, 1/m3
	Stiffness    // N/m
	Number       // dimensionless
)

// dimension says how a kind of quantity is spoken of, and what its SI unit inside is.
type dimension struct {
	name, article, si string
	example           string
}

var dimensions = map[Dim]dimension{
	Length:          {"length", "a", "m", "102 mm, 4 in or 1.2 m"},
	Area:            {"area", "an", "m2", "2.4 m2 or 600 cm2"},
	Volume:          {"volume", "a", "m3", "6 L or 1.5 US gal"},
	Speed:           {"speed", "a", "m/s", "343 m/s or 7 kn"},
	Power:           {"power", "a", "W", "112 kW or 150 hp"},
	RotationalSpeed: {"rotational speed", "a", "rpm", "1650 rpm"},
	Pressure:        {"pressure", "a", "Pa", "6 kPa, 24 inH2O or 2 inHg"},
	MassFlow:        {"mass flow", "a", "kg/s", "0.3 kg/s"},
	VolumeFlow:      {"volume flow", "a", "m3/s", "18 L/min, 425 cfm or 12 m3/min"},
	Temperature:     {"temperature", "a", "K", "380 °C or 716 F"},
	Mass:            {"mass", "a", "kg", "14 kg or 31 lb"},
	SurfaceMass:     {"mass per area", "a", "kg/m2", "5 kg/m2 or 1 lb/ft2"},
	Density:         {"density", "a", "kg/m3", "1.204 kg/m3"},
	Level:           {"level", "a", "dB", "85 dB"},
	LevelA:          {"A-weighted level", "an", "dB(A)", "71 dBA"},
	LevelC:          {"C-weighted level", "a", "dB(C)", "85 dBC"},
	Duration:        {"time", "a", "h", "3 h or 40 min"},
	Frequency:       {"frequency", "a", "Hz", "50 Hz"},
	Angle:           {"angle", "an", "rad", "90 deg"},
	Fraction:        {"share", "a", "1", "27 %"},
	Consumption:     {"fuel consumption", "a", "kg/J", "250 g/kWh"},
	FlowResistivity: {"flow resistivity", "a", "Pa s/m2", "10000 Pa.s/m2"},
	CrossSection:    {"volume per length", "a", "m2", "18 L/m"},
	PerVolume:       {"price per volume", "a", "1/m3", "1.6 /L"},
	Stiffness:       {"stiffness", "a", "N/m", "300 N/mm"},
	Number:          {"plain number", "a", "1", "3"},
}

// String is the name of the kind of quantity.
func (d Dim) String() string { return dimensions[d].name }

// example is what a value of this kind looks like.
func (d Dim) Example() string { return dimensions[d].example }

// phrase is the name with its article.
func (d Dim) Phrase() string { return dimensions[d].article + " " + dimensions[d].name }

// unit turns a number into SI: value*factor + offset.
type unit struct {
	name   string
	dim    Dim
	factor float64
	offset float64
	note   string // what is taken for granted with this unit
}

// Exact by definition: inch, foot, pound, US gallon, standard atmosphere and gravity (NIST SP 811,
// 2008, appendix B, from memory). inHg is conventional mercury (0 C), inH2O conventional water (4 C).
const (
	inch      = 0.0254
	foot      = 0.3048
	pound     = 0.45359237
	gravity   = 9.80665
	Litre     = 1e-3
	gallonUS  = 3.785411784e-3
	gallonUK  = 4.54609e-3
	psi       = pound * gravity / (inch * inch)
	inchHg    = 3386.389
	inchWater = 249.08891
	mmHg      = 133.322387
	mmWater   = 9.80665
	hp        = 745.69987158227022
	metricHP  = 75 * gravity
	Degree    = 3.14159265358979323846 / 180
)

// unitTable lists every spelling; the first of each dimension and factor is the one shown in hints.
var unitTable = []unit{
	{"mm", Length, 1e-3, 0, ""}, {"cm", Length, 1e-2, 0, ""}, {"m", Length, 1, 0, ""}, {"in", Length, inch, 0, ""}, {"ft", Length, foot, 0, ""},
	{"inch", Length, inch, 0, ""}, {"inches", Length, inch, 0, ""}, {"\"", Length, inch, 0, ""}, {"feet", Length, foot, 0, ""}, {"foot", Length, foot, 0, ""},
	{"'", Length, foot, 0, ""}, {"metre", Length, 1, 0, ""}, {"metres", Length, 1, 0, ""}, {"meter", Length, 1, 0, ""}, {"meters", Length, 1, 0, ""}, {"um", Length, 1e-6, 0, ""},
	{"km", Length, 1e3, 0, ""}, {"nmi", Length, 1852, 0, ""}, {"yd", Length, 0.9144, 0, ""},
	{"m2", Area, 1, 0, ""}, {"cm2", Area, 1e-4, 0, ""}, {"mm2", Area, 1e-6, 0, ""}, {"in2", Area, inch * inch, 0, ""}, {"ft2", Area, foot * foot, 0, ""},
	{"sq in", Area, inch * inch, 0, ""}, {"sq ft", Area, foot * foot, 0, ""}, {"sq m", Area, 1, 0, ""}, {"sq cm", Area, 1e-4, 0, ""},
	{"L", Volume, Litre, 0, ""}, {"litre", Volume, Litre, 0, ""}, {"litres", Volume, Litre, 0, ""}, {"liter", Volume, Litre, 0, ""}, {"liters", Volume, Litre, 0, ""},
	{"mL", Volume, 1e-6, 0, ""}, {"cm3", Volume, 1e-6, 0, ""}, {"cc", Volume, 1e-6, 0, ""}, {"m3", Volume, 1, 0, ""}, {"in3", Volume, inch * inch * inch, 0, ""},
	{"cu in", Volume, inch * inch * inch, 0, ""}, {"ft3", Volume, foot * foot * foot, 0, ""}, {"cu ft", Volume, foot * foot * foot, 0, ""},
	{"US gal", Volume, gallonUS, 0, ""}, {"gal US", Volume, gallonUS, 0, ""}, {"gal", Volume, gallonUS, 0, "gal was taken as the US gallon, 3.785 L"}, {"imp gal", Volume, gallonUK, 0, ""}, {"UK gal", Volume, gallonUK, 0, ""},
	{"m/s", Speed, 1, 0, ""}, {"kn", Speed, 1852.0 / 3600, 0, ""}, {"kt", Speed, 1852.0 / 3600, 0, ""}, {"kts", Speed, 1852.0 / 3600, 0, ""}, {"knot", Speed, 1852.0 / 3600, 0, ""}, {"knots", Speed, 1852.0 / 3600, 0, ""},
	{"km/h", Speed, 1 / 3.6, 0, ""}, {"ft/s", Speed, foot, 0, ""}, {"ft/min", Speed, foot / 60, 0, ""}, {"fpm", Speed, foot / 60, 0, ""}, {"mph", Speed, 0.44704, 0, ""},
	{"kW", Power, 1e3, 0, ""}, {"W", Power, 1, 0, ""}, {"hp", Power, hp, 0, ""}, {"bhp", Power, hp, 0, ""}, {"HP", Power, hp, 0, ""}, {"PS", Power, metricHP, 0, ""}, {"cv", Power, metricHP, 0, ""}, {"MW", Power, 1e6, 0, ""},
	{"kWe", Power, 1e3, 0, "kWe is the electrical power of a set; its engine gives more at the shaft"},
	{"kVA", Power, 800, 0, "kVA was turned into kW at power factor 0.8 (common practice, no source)"}, {"Btu/h", Power, 1055.05585262 / 3600, 0, ""}, {"kcal/h", Power, 4186.8 / 3600, 0, ""},
	{"rpm", RotationalSpeed, 1, 0, ""}, {"r/min", RotationalSpeed, 1, 0, ""}, {"1/min", RotationalSpeed, 1, 0, ""}, {"rev/min", RotationalSpeed, 1, 0, ""}, {"rps", RotationalSpeed, 60, 0, ""},
	{"kPa", Pressure, 1e3, 0, ""}, {"Pa", Pressure, 1, 0, ""}, {"mbar", Pressure, 100, 0, ""}, {"hPa", Pressure, 100, 0, ""}, {"bar", Pressure, 1e5, 0, ""}, {"psi", Pressure, psi, 0, ""},
	{"inHg", Pressure, inchHg, 0, ""}, {"in Hg", Pressure, inchHg, 0, ""}, {"\"Hg", Pressure, inchHg, 0, ""}, {"inches of mercury", Pressure, inchHg, 0, ""}, {"in mercury", Pressure, inchHg, 0, ""},
	{"inH2O", Pressure, inchWater, 0, ""}, {"in H2O", Pressure, inchWater, 0, ""}, {"in H₂O", Pressure, inchWater, 0, ""}, {"inWC", Pressure, inchWater, 0, ""}, {"in WC", Pressure, inchWater, 0, ""}, {"\"H2O", Pressure, inchWater, 0, ""}, {"\"WC", Pressure, inchWater, 0, ""},
	{"inches of water", Pressure, inchWater, 0, ""}, {"in water", Pressure, inchWater, 0, ""}, {"in of water", Pressure, inchWater, 0, ""}, {"inches water", Pressure, inchWater, 0, ""}, {"inches H2O", Pressure, inchWater, 0, ""},
	{"mmH2O", Pressure, mmWater, 0, ""}, {"mm H2O", Pressure, mmWater, 0, ""}, {"mm water", Pressure, mmWater, 0, ""}, {"mm of water", Pressure, mmWater, 0, ""}, {"mmWC", Pressure, mmWater, 0, ""}, {"mm WC", Pressure, mmWater, 0, ""},
	{"cmH2O", Pressure, 10 * mmWater, 0, ""}, {"cm water", Pressure, 10 * mmWater, 0, ""}, {"mmHg", Pressure, mmHg, 0, ""}, {"mm Hg", Pressure, mmHg, 0, ""}, {"torr", Pressure, mmHg, 0, ""},
	{"oz/in2", Pressure, psi / 16, 0, ""}, {"oz/sq in", Pressure, psi / 16, 0, ""}, {"osi", Pressure, psi / 16, 0, ""}, {"oz", Pressure, psi / 16, 0, "oz was taken as ounces per square inch"},
	{"kg/cm2", Pressure, gravity * 1e4, 0, ""}, {"kgf/cm2", Pressure, gravity * 1e4, 0, ""}, {"at", Pressure, gravity * 1e4, 0, ""}, {"atm", Pressure, 101325, 0, ""}, {"lb/in2", Pressure, psi, 0, ""}, {"N/m2", Pressure, 1, 0, ""},
	{"kg/s", MassFlow, 1, 0, ""}, {"kg/min", MassFlow, 1.0 / 60, 0, ""}, {"kg/h", MassFlow, 1.0 / 3600, 0, ""}, {"g/s", MassFlow, 1e-3, 0, ""}, {"lb/min", MassFlow, pound / 60, 0, ""}, {"lb/h", MassFlow, pound / 3600, 0, ""}, {"lb/s", MassFlow, pound, 0, ""},
	{"m3/s", VolumeFlow, 1, 0, ""}, {"m3/min", VolumeFlow, 1.0 / 60, 0, ""}, {"m3/h", VolumeFlow, 1.0 / 3600, 0, ""}, {"cfm", VolumeFlow, foot * foot * foot / 60, 0, ""}, {"ft3/min", VolumeFlow, foot * foot * foot / 60, 0, ""},
	{"L/min", VolumeFlow, Litre / 60, 0, ""}, {"lpm", VolumeFlow, Litre / 60, 0, ""}, {"L/s", VolumeFlow, Litre, 0, ""}, {"L/h", VolumeFlow, Litre / 3600, 0, ""}, {"lph", VolumeFlow, Litre / 3600, 0, ""},
	{"gpm", VolumeFlow, gallonUS / 60, 0, "gpm was taken as US gallons per minute"}, {"gpm US", VolumeFlow, gallonUS / 60, 0, ""}, {"US gpm", VolumeFlow, gallonUS / 60, 0, ""}, {"gal/min", VolumeFlow, gallonUS / 60, 0, "gal was taken as the US gallon, 3.785 L"},
	{"imp gpm", VolumeFlow, gallonUK / 60, 0, ""}, {"gph", VolumeFlow, gallonUS / 3600, 0, "gph was taken as US gallons per hour"}, {"US gph", VolumeFlow, gallonUS / 3600, 0, ""}, {"gph US", VolumeFlow, gallonUS / 3600, 0, ""}, {"gal/h", VolumeFlow, gallonUS / 3600, 0, "gal was taken as the US gallon, 3.785 L"},
	{"°C", Temperature, 1, 273.15, ""}, {"C", Temperature, 1, 273.15, ""}, {"degC", Temperature, 1, 273.15, ""}, {"deg C", Temperature, 1, 273.15, ""},
	{"°F", Temperature, 5.0 / 9, 459.67 * 5 / 9, ""}, {"F", Temperature, 5.0 / 9, 459.67 * 5 / 9, ""}, {"degF", Temperature, 5.0 / 9, 459.67 * 5 / 9, ""}, {"deg F", Temperature, 5.0 / 9, 459.67 * 5 / 9, ""},
	{"K", Temperature, 1, 0, ""}, {"°K", Temperature, 1, 0, ""},
	{"kg", Mass, 1, 0, ""}, {"g", Mass, 1e-3, 0, ""}, {"lb", Mass, pound, 0, ""}, {"lbs", Mass, pound, 0, ""}, {"t", Mass, 1000, 0, ""}, {"oz", Mass, pound / 16, 0, ""},
	{"kg/m2", SurfaceMass, 1, 0, ""}, {"g/m2", SurfaceMass, 1e-3, 0, ""}, {"lb/ft2", SurfaceMass, pound / (foot * foot), 0, ""}, {"lb/sq ft", SurfaceMass, pound / (foot * foot), 0, ""}, {"psf", SurfaceMass, pound / (foot * foot), 0, ""},
	{"kg/m3", Density, 1, 0, ""}, {"g/cm3", Density, 1e3, 0, ""}, {"kg/L", Density, 1e3, 0, ""}, {"lb/ft3", Density, pound / (foot * foot * foot), 0, ""},
	{"dB", Level, 1, 0, ""}, {"dBA", LevelA, 1, 0, ""}, {"dB(A)", LevelA, 1, 0, ""}, {"dB A", LevelA, 1, 0, ""}, {"dBC", LevelC, 1, 0, ""}, {"dB(C)", LevelC, 1, 0, ""}, {"dB C", LevelC, 1, 0, ""},
	{"h", Duration, 1, 0, ""}, {"hr", Duration, 1, 0, ""}, {"hrs", Duration, 1, 0, ""}, {"hour", Duration, 1, 0, ""}, {"hours", Duration, 1, 0, ""}, {"min", Duration, 1.0 / 60, 0, ""}, {"minutes", Duration, 1.0 / 60, 0, ""}, {"s", Duration, 1.0 / 3600, 0, ""},
	{"day", Duration, 24, 0, ""}, {"days", Duration, 24, 0, ""}, {"d", Duration, 24, 0, ""}, {"week", Duration, 168, 0, ""}, {"weeks", Duration, 168, 0, ""}, {"wk", Duration, 168, 0, ""},
	{"Hz", Frequency, 1, 0, ""}, {"kHz", Frequency, 1e3, 0, ""},
	{"deg", Angle, Degree, 0, ""}, {"°", Angle, Degree, 0, ""}, {"degree", Angle, Degree, 0, ""}, {"degrees", Angle, Degree, 0, ""}, {"rad", Angle, 1, 0, ""},
	{"%", Fraction, 0.01, 0, ""}, {"percent", Fraction, 0.01, 0, ""},
	{"g/kWh", Consumption, 1e-3 / 3.6e6, 0, ""}, {"kg/kWh", Consumption, 1 / 3.6e6, 0, ""}, {"g/hph", Consumption, 1e-3 / (hp * 3600), 0, ""}, {"lb/hph", Consumption, pound / (hp * 3600), 0, ""},
	{"Pa.s/m2", FlowResistivity, 1, 0, ""}, {"Pa s/m2", FlowResistivity, 1, 0, ""}, {"Ns/m4", FlowResistivity, 1, 0, ""}, {"N.s/m4", FlowResistivity, 1, 0, ""}, {"rayl/m", FlowResistivity, 1, 0, ""}, {"kPa.s/m2", FlowResistivity, 1e3, 0, ""},
	{"L/m", CrossSection, Litre, 0, ""}, {"gal/ft", CrossSection, gallonUS / foot, 0, "gal was taken as the US gallon, 3.785 L"}, {"US gal/ft", CrossSection, gallonUS / foot, 0, ""},
	{"N/mm", Stiffness, 1e3, 0, ""}, {"N/m", Stiffness, 1, 0, ""}, {"kN/m", Stiffness, 1e3, 0, ""}, {"lb/in", Stiffness, pound * gravity / inch, 0, ""}, {"lbf/in", Stiffness, pound * gravity / inch, 0, ""},
	{"/L", PerVolume, 1 / Litre, 0, ""}, {"/US gal", PerVolume, 1 / gallonUS, 0, ""}, {"/gal", PerVolume, 1 / gallonUS, 0, "gal was taken as the US gallon, 3.785 L"}, {"/m3", PerVolume, 1, 0, ""},
}

var (
	unitsExact = map[string][]unit{}
	unitsLoose = map[string][]unit{} // by lower case, where that is not ambiguous
)

func init() {
	for _, u := range unitTable {
		unitsExact[u.name] = append(unitsExact[u.name], u)
		low := strings.ToLower(u.name)
		unitsLoose[low] = append(unitsLoose[low], u)
	}
}

var unitSpelling = strings.NewReplacer("²", "2", "³", "3", "^2", "2", "^3", "3", "·", ".", "*", ".", "″", "\"", "”", "\"", "“", "\"", "′", "'", "’", "'", "µ", "u", "μ", "u", "₂", "2", "º", "°")

// spelled writes signs of a unit in the letters of the table; most are.
func spelled(s string) string {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf || s[i] == '^' || s[i] == '*' {
			return unitSpelling.Replace(s)
		}
	}
	return s
}

var unitGaps = strings.NewReplacer("° ", "°", "\" ", "\"", " (", "(")

// normalUnit brings the spellings of one unit together.
func normalUnit(s string) string {
	s = strings.Join(strings.Fields(spelled(s)), " ")
	s = strings.ReplaceAll(strings.ReplaceAll(s, " /", "/"), "/ ", "/")
	s = unitGaps.Replace(s)
	return strings.TrimSuffix(s, ".")
}

// lookUnit gives every meaning of a unit's name.
func lookUnit(name string) []unit {
	if us := unitsExact[name]; us != nil {
		return us
	}
	return unitsLoose[strings.ToLower(name)]
}

// unitNames lists the units of a dimension, commonest first, for messages.
func UnitNames(d Dim) []string {
	var names []string
	shown := map[float64]bool{}
	for _, u := range unitTable {
		if u.dim == d && !shown[u.factor] && len(names) < 10 && !(d == Length && len(names) == 5) {
			shown[u.factor] = true
			names = append(names, u.name)
		}
	}
	return names
}

// Spellings lists every name of a unit that is read for a dimension.
func Spellings(d Dim) []string {
	var names []string
	for _, u := range unitTable {
		if u.dim == d {
			names = append(names, u.name)
		}
	}
	return names
}
