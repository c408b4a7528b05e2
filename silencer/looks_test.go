package silencer

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// A line more in the table is an inside more, with its own loss, doubt and pressure.
func TestALineOfTheTableIsAnInside(t *testing.T) {
	defer func(all []Interior) { Interiors = all }(Interiors)
	const line = `resonant,Closed rooms beside a tube,no,1.25,0.45,7 7 7 7 7 7 7 7 7,2 4 6 8 10 8 6 4 2,3 6 9 12 15 12 9 6 3,,"a test",judgement`
	var err error
	shipped := len(Interiors)
	Interiors, err = readInteriors(strings.TrimRight(looksText, "\n") + "\n" + line + "\n")
	require.NoError(t, err)
	require.Len(t, Interiors, shipped+1)
	look := Look{"resonant", StateNew}
	small, sd := look.insertion(1, 0.15, 0.1)
	assert.Equal(t, spectrum.Bands{2, 4, 6, 8, 10, 8, 6, 4, 2}, small)
	assert.Equal(t, spectrum.Fill(7), sd)
	large, _ := look.insertion(1, 0.4, 0.1)
	assert.Equal(t, small, large, "no large row: as small")
	medium, _ := look.insertion(1, 0.27, 0.1)
	assert.InDelta(t, 15, medium[4], 1e-9)
	k, kSD := look.pressure()
	assert.InDelta(t, 1.25, k.K, 0)
	assert.InDelta(t, 0.45, kSD, 0)
	sooted, _ := Look{"resonant", StateSooted}.insertion(1, 0.15, 0.1)
	assert.InDelta(t, 10*5.0/6, sooted[4], 1e-9, "no holes that soot could close")
}

func TestBadTablesOfLooks(t *testing.T) {
	head := "kind,words,holes,k,k_sd,sd_db,small,medium,large,source,mark\n"
	for row, want := range map[string]string{
		"x,w,no,K,0.4,1 1 1 1 1 1 1 1 1,1 1 1 1 1 1 1 1 1,,,s,m":    "x: ",
		"x,w,no,1,?,1 1 1 1 1 1 1 1 1,1 1 1 1 1 1 1 1 1,,,s,m":      "x: ",
		"x,w,no,1,0.4,1 1 1,1 1 1 1 1 1 1 1 1,,,s,m":                "3 values for 9 octaves",
		"x,w,no,1,0.4,1 1 1 1 1 1 1 1 1,,,,s,m":                     "0 values for 9 octaves",
		"x,w,no,1,0.4,1 1 1 1 1 1 1 1 1,1 1 1 1 1 1 1 1 -1,,,s,m":   "no loss in dB",
		"x,w,no,1,0.4,1 1 1 1 1 1 1 1 1,1 1 1 1 1 1 1 1 1,2 2,,s,m": "2 values for 9 octaves",
		"x,w": "wrong number of fields",
	} {
		_, err := readInteriors(head + row + "\n")
		require.ErrorContains(t, err, want, row)
	}
	for _, in := range Interiors {
		assert.NotEmpty(t, in.Words)
		assert.NotEmpty(t, in.Source, "%s says where its figures are from", in.Inside)
		assert.Contains(t, published.Marks, in.Mark)
	}
}

// A doubt cites the row of its own grade, with its mark; what is not known cites both rows that it lies between.
func TestALookCitesItsOwnRow(t *testing.T) {
	for _, in := range Interiors {
		_, why := (&Given{Look: &Look{Inside: in.Inside}}).sd()
		for _, row := range Interiors {
			own := row.Inside == in.Inside || in.Inside == InsideUnknown && row.Inside == StraightThrough
			same := row.Source == in.Source && row.Mark == in.Mark
			assert.Equal(t, own || same, strings.Contains(why+";", row.Mark+": "+row.Source+";"), "%s in that of %s: %s", row.Inside, in.Inside, why)
		}
		assert.Contains(t, why, "size, state and doubt: judgement")
	}
	_, why := (&Given{}).sd()
	_, unknown := (&Given{Look: &Look{Inside: InsideUnknown}}).sd()
	assert.Equal(t, unknown, why, "nothing known")
}
