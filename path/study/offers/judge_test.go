package offers

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/path/study/readings"
	"hushwake/path/study/survey"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

func f(v float64) *float64 { return &v }

func duty() Duty {
	u := spectrum.Bands{110, 118, 122, 118, 112, 108, 104, 98, 90}
	return Duty{MassFlow: 0.26, Temperature: 703, Density: 353.2 / 703, Unsilenced: &u, Bore: 0.102}
}

func fullQuote() path.Quote {
	b := spectrum.Bands{5, 12, 20, 25, 28, 28, 26, 24, 20}
	return path.Quote{Name: "offer A", Price: f(640), InsertionLoss: &b, Length: .9, Diameter: .3, Bore: .102, Mass: f(14), LeadTime: "5 weeks",
		Test: "measured in a duct with flow", Includes: []string{"flanges", "gaskets", "lagging", "brackets"},
		Loss: &silencer.Loss{Drop: 3100, MassFlow: 0.16, Temperature: 693, Basis: silencer.BasisHot}}
}

func has(list []string, part string) bool { return strings.Contains(strings.Join(list, "\n"), part) }

func TestFullQuoteIsScaledToTheDuty(t *testing.T) {
	j := Judge(fullQuote(), duty())
	require.True(t, j.Judgeable)
	require.Empty(t, j.Questions)
	// Similarity: dp goes with m^2 T at one pressure: 3100 (0.26/0.16)^2 703/693.
	require.InEpsilon(t, 3100*math.Pow(.26/.16, 2)*703/693, *j.Drop, 0.005)
	require.Equal(t, 640.0, *j.Total)
	u := *duty().Unsilenced
	require.InDelta(t, u.DBA()-u.Minus(*fullQuote().InsertionLoss).DBA(), *j.LossDBA, 1e-9)
}

func TestOpenBasisGivesTwoAnswersAndAQuestion(t *testing.T) {
	q := fullQuote()
	q.Loss.Basis = silencer.BasisUnknown
	q.Loss.MassFlow, q.Loss.Temperature = 0, 0
	j := Judge(q, duty())
	require.True(t, j.Judgeable)
	require.Greater(t, *j.DropHigh, 2*(*j.DropLow)) // 430 C against cold air: a factor of about 2.4
	require.True(t, has(j.Questions, "at the same mass flow"))
	require.True(t, has(j.Questions, "which flow"))
	require.NotEmpty(t, j.Warnings)
}

func TestGradeWordsCantBeJudged(t *testing.T) {
	q := fullQuote()
	q.Name, q.InsertionLoss, q.Claim = "offer C", nil, "critical grade"
	j := Judge(q, duty())
	require.False(t, j.Judgeable)
	require.Contains(t, j.Verdict, "can't be judged as quoted because")
	require.Contains(t, j.Verdict, "critical grade")
	require.True(t, has(j.Questions, "octave"))
	q.Claim = "25-35 dB(A)"
	require.Contains(t, Judge(q, duty()).Verdict, "in which octaves")
	q.Claim = "30 dB at 500 Hz"
	require.True(t, has(Judge(q, duty()).Questions, "one frequency only"))
	q.Loss = nil
	require.Contains(t, Judge(q, duty()).Verdict, "no pressure loss")
	require.Contains(t, Judge(path.Quote{Name: "offer D"}, duty()).Verdict, "no loss of sound at all")
}

func TestOneFigureAndALevelAtADistance(t *testing.T) {
	q := fullQuote()
	q.InsertionLoss, q.Overall = nil, f(22)
	j := Judge(q, duty())
	require.True(t, j.Judgeable)
	require.Equal(t, 22.0, *j.LossDBA)
	require.True(t, has(j.Questions, "octave losses behind"))
	require.True(t, has(j.Warnings, "125 Hz"))
	q.Overall, q.Level = nil, &path.QuotedLevel{Level: 82, Distance: 3}
	j = Judge(q, duty())
	want := duty().Unsilenced.DBA() - 82 - 20.53 // 10 lg(4 pi 9) = 20.53
	require.InDelta(t, want, *j.LossDBA, 0.01)
	require.True(t, has(j.Questions, "angle"))
	require.True(t, has(j.Questions, "load"))
	q.Level.Distance = 0
	require.False(t, Judge(q, duty()).Judgeable)
}

func TestMoneyPartsAndPorts(t *testing.T) {
	q := fullQuote()
	q.Includes = []string{"flanges"}
	q.Extras = []path.Extra{{What: "lagging jacket", Price: f(120)}, {What: "gaskets", Price: nil}}
	q.Bore, q.LeadTime, q.Mass = .127, "", nil
	j := Judge(q, duty())
	require.Equal(t, 760.0, *j.Total)
	require.Equal(t, []string{"gaskets"}, j.UnpricedExtras)
	require.True(t, has(j.Questions, "brackets"))
	require.False(t, has(j.Questions, "flanges"))
	require.True(t, has(j.Questions, "Delivery"))
	require.True(t, has(j.Questions, "mass"))
	require.True(t, has(j.Warnings, "do not match"))
}

func TestRankQuotes(t *testing.T) {
	all := drawstest.Boat(3, 0)
	for i, q := range []string{"offer A", "offer B", "offer C"} {
		all[i].Layout.Quotes = []string{q}
	}
	m := model(t, all)
	e, err := m.Draw(draws.Options{N: 500})
	require.NoError(t, err)
	acceptance := survey.Acceptance(m, m.Run(e), e, survey.Before{Meter: readings.PhoneSD})
	judged := []Judged{{Name: "offer A", Judgeable: true}, {Name: "offer B", Judgeable: true}, {Name: "offer C", Judgeable: false}}
	r := Rank(judged, all, "helm", acceptance)
	require.Equal(t, "offer B", r[0].Name)
	require.Equal(t, 1, r[0].Rank)
	require.Equal(t, "layout 2", r[0].Layout)
	require.Less(t, *r[0].Low, *r[0].Level)
	require.Equal(t, "offer C", r[2].Name)
	require.Zero(t, r[2].Rank)
	all[1].Refused = true
	r = Rank(judged, all, "helm", acceptance)
	require.Equal(t, "offer A", r[0].Name)
	require.Zero(t, r[1].Rank)
	require.True(t, r[1].Refused)
	require.Contains(t, r[1].Verdict, "refused")
}

func TestDutyOfAnOffer(t *testing.T) {
	p := drawstest.Boat(1, 0)[0]
	p.Layout.Exhausts = []path.Exhaust{{Engine: "main", Line: silencer.Line{Elements: []silencer.Element{
		&silencer.Given{}, &silencer.Pipe{Bore: .102}, &silencer.Given{Offer: "offer A"}}}}}
	x := &p.Exhausts[0]
	x.RatedSource.PipeFlow, x.RatedSource.Temperature = .26, 720
	x.Rated.OutletGas.Density, x.Rated.OutletGas.Temperature = .6, 600
	x.Rated.Rows = []silencer.Row{{Index: 1, GasTemperature: 700}, {Index: 2, GasTemperature: 660}, {Index: 3, GasTemperature: 640}}
	d, ok := DutyOf(p, "offer A")
	require.True(t, ok)
	require.Equal(t, 660.0, d.Temperature)
	require.InDelta(t, .6*600/660, d.Density, 1e-12)
	require.Equal(t, .102, d.Bore)
	require.EqualValues(t, .26, d.MassFlow)
	require.Empty(t, d.Engine)
	quote := path.Quote{Name: "offer A", InsertionLoss: &spectrum.Bands{}, Loss: &silencer.Loss{Drop: 1e3, MassFlow: .2}}
	alone := Judge(quote, d)
	require.Contains(t, alone.Verdict, "on this exhaust; ")
	require.Contains(t, alone.Verdict, "at this engine's rated flow")
	p.Exhausts = append(p.Exhausts, path.ExhaustResult{Engine: "set"})
	d, ok = DutyOf(p, "offer A")
	require.True(t, ok)
	of := Judge(quote, d)
	require.Contains(t, of.Verdict, "on main's exhaust; ")
	require.Contains(t, of.Verdict, "at main's rated flow")
	require.Contains(t, alone.Questions[1], "Does the pressure loss")
	require.Contains(t, of.Questions[1], "main: Does the pressure loss")
	_, ok = DutyOf(p, "offer Z")
	require.False(t, ok)
}
