package advice

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/study/draws"
)

// around gives draws about levels at seats, each scattered by its own sd about a part all choices share.
func around(sd float64, seed uint64, levels ...float64) (out [][]float64) {
	shared, own := rand.New(rand.NewPCG(1, 1)), rand.New(rand.NewPCG(2, seed))
	for _, l := range levels {
		v := make([]float64, 2000)
		for d := range v {
			v[d] = l + 5*shared.NormFloat64() + sd*own.NormFloat64()
		}
		out = append(out, v)
	}
	return out
}

// Paired differences decide: 0.7 dB apart at the median is the same however wide each band is, 2 dB apart
// with little scatter lies within 3 dB in eight cases of ten, 2.5 dB with 3 dB of scatter does not.
func TestSameIsWhatNobodyHears(t *testing.T) {
	at := func(l, sd float64) Choice { return Choice{Levels: around(sd, 7, l)} }
	base := Choice{Levels: around(0, 8, 60)}
	require.True(t, Same(base, at(60.7, 4), 0))
	require.True(t, Same(base, at(62, 0.3), 0))
	require.False(t, Same(base, at(62.5, 3), 0))
	require.False(t, Same(base, at(64, 0.3), 0))
	require.Equal(t, Same(base, at(62.5, 3), 0), Same(at(62.5, 3), base, 0), "either way round")
	require.True(t, Same(base, base, 0))
}

// Inside a group engine harm goes before fit, fit before heat, heat before price.
func TestInsideAGroup(t *testing.T) {
	levels := around(0, 1, 60)
	c := func(name string, change func(*Choice)) Choice {
		c := Choice{Layout: name, Levels: levels, Price: f(1000)}
		change(&c)
		return c
	}
	all := []Choice{
		c("over", func(c *Choice) { c.Pressure, c.Price = 1.2, f(10) }),
		c("starved", func(c *Choice) { c.Starved, c.Price = true, f(20) }),
		c("little margin", func(c *Choice) { c.Pressure, c.Price = 0.9, f(30) }),
		c("tight", func(c *Choice) { c.Tight, c.Price = true, f(40) }),
		c("cooked", func(c *Choice) { c.Cooked, c.Price = true, f(50) }),
		c("dear", func(c *Choice) { c.Price = f(3000) }),
		c("good", func(c *Choice) {}),
		c("refused", func(c *Choice) { c.Out, c.Price = true, f(1) }),
	}
	g := groups(all, []Seat{{Name: "helm"}})
	require.Len(t, g, 1)
	var names []string
	for _, c := range g[0] {
		names = append(names, c.Layout)
	}
	require.Equal(t, []string{"good", "dear", "cooked", "tight", "little margin", "over", "starved"}, names)
	a := Advise(all, []Seat{{Name: "helm"}}, 0, "EUR")
	require.Equal(t, "good", a.Layout)
	require.Len(t, a.Same, 6)
	require.Contains(t, a.Text(), "At helm no layout of the file changes what one hears.")
	require.Contains(t, a.Text(), "keeps the engine cool for the least money")
	require.NotContains(t, a.Text(), "refused")
}

// A dearer layout is taken while it buys what is heard; the sentence says what it buys, where, for how much.
func TestWhatTheDearerBuys(t *testing.T) {
	seats := []Seat{{Name: "helm", Hours: 8}, {Name: "cabin", Hours: 8}}
	today := Choice{Layout: "as found", Levels: around(1, 1, 80, 70), Today: true}
	cheap := Choice{Layout: "cheap", Levels: around(1, 2, 70, 66), Price: f(1000)}
	dear := Choice{Layout: "dear", Levels: around(1, 3, 60, 64), Price: f(3000)}
	dearest := Choice{Layout: "dearest", Levels: around(1, 4, 60, 60), Price: f(9000)}
	a := Advise([]Choice{dearest, today, dear, cheap}, seats, 0, "EUR")
	require.Equal(t, "dear", a.Layout)
	require.Empty(t, a.Same)
	require.Contains(t, a.Text(), `Take "dear" (3000 EUR): 60 dB(A) at helm`)
	require.Contains(t, a.Text(), "20 dB under today (about a quarter as loud)")
	require.Contains(t, a.Text(), `Over the next cheaper, "cheap", it buys 10 dB at helm (about half as loud) for 2000 EUR more.`)
	require.Contains(t, a.Text(), `The next dearer, "dearest", buys 4 dB at cabin (plainly heard) for 6000 EUR more.`)
	require.Contains(t, a.Text(), "At cabin it is")

	// Hours weigh: who sleeps there twice as long as he steers takes the dearest.
	seats[1].Hours = 40
	require.Equal(t, "dearest", Advise([]Choice{dearest, today, dear, cheap}, seats, 0, "EUR").Layout)
	// A limit that only the dearest keeps is worth its price.
	seats[1].Hours, seats[1].Limit = 8, f(62)
	limited := Advise([]Choice{dearest, today, dear, cheap}, seats, 0, "EUR")
	require.Equal(t, "dearest", limited.Layout)
	require.NotContains(t, limited.Text(), "over the limit")
	require.Contains(t, Advise([]Choice{today, dear, cheap}, seats, 0, "EUR").Text(), "It stays over the limit of the file at cabin.")
	over := Advise([]Choice{today, dear, cheap}, seats, 0, "EUR")
	require.Equal(t, "It stays over the limit of the file at cabin.", over.Sentences[over.Firm-1], "before what it is compared with")
	require.Contains(t, over.Sentences[over.Firm-2], "60 dB(A) at helm, 20 dB under today (about a quarter as loud).", "and what changes before both")
	require.Equal(t, "At helm eight cases of ten lie between 53 and 66 dB(A).", over.Sentences[over.Firm])
	// Order in the file changes nothing.
	require.Equal(t, Advise([]Choice{cheap, dear, today, dearest}, seats, 0, "EUR"), Advise([]Choice{dearest, today, dear, cheap}, seats, 0, "EUR"))
}

// Without a stated price nothing is dearer or cheaper than a layout.
func TestUnstatedPriceIsNoRank(t *testing.T) {
	f := func(v float64) *float64 { return &v }
	seats := []Seat{{Name: "helm"}}
	priced := Choice{Layout: "priced", Levels: around(1, 2, 70), Price: f(1000)}
	text := Advise([]Choice{priced, {Layout: "unpriced", Levels: around(1, 3, 60)}}, seats, 0, "EUR").Text()
	require.NotContains(t, text, "cheaper")
	require.NotContains(t, text, "dearer")
}

func TestNothingToAdvise(t *testing.T) {
	a := Advise([]Choice{{Layout: "a", Levels: around(1, 1, 60), Out: true}}, []Seat{{Name: "helm"}}, 0, "EUR")
	require.Empty(t, a.Layout)
	require.Contains(t, a.Text(), "Nothing can be advised")
	one := Advise([]Choice{{Layout: "a", Levels: around(1, 1, 60)}}, []Seat{{Name: "helm"}}, 0, "EUR")
	require.Equal(t, "a", one.Layout)
	require.NotContains(t, one.Text(), "no layout of the file changes")
}

// While a layout has open slots nothing is to be taken: that comes first.
func TestOpenSlotsComeFirst(t *testing.T) {
	whole := Choice{Layout: "bare", Levels: around(1, 1, 98), Price: f(400)}
	slots := Choice{Layout: "new", Levels: around(1, 2, 98), Out: true, Slots: "hushwake choose b.yaml"}
	a := Advise([]Choice{slots, whole}, []Seat{{Name: "deck"}}, 0, "EUR")
	require.True(t, a.Open)
	require.Equal(t, `"new" has open slots: hushwake choose b.yaml searches what to put into them.`, a.Sentences[0])
	require.NotContains(t, a.Text(), "Take")
	require.False(t, Advise([]Choice{whole}, []Seat{{Name: "deck"}}, 0, "EUR").Open)
}

// Wet against dry is said to be unmeasured where the advice sets one against the other.
func TestAdviceOfWetAgainstDry(t *testing.T) {
	dry := Choice{Layout: "dry", Levels: around(1, 1, 80), Today: true}
	wet := Choice{Layout: "wet", Levels: around(1, 2, 60), Price: f(100), Wet: true}
	require.Contains(t, Advise([]Choice{dry, wet}, []Seat{{Name: "helm"}}, 0, "EUR").Text(), unmeasured)
	wet.Wet = false
	require.NotContains(t, Advise([]Choice{dry, wet}, []Seat{{Name: "helm"}}, 0, "EUR").Text(), unmeasured)
}

// What is louder at the first seat than today is taken for a reason that the sentence tells.
func TestWhyTheLouderIsTaken(t *testing.T) {
	seats := []Seat{{Name: "helm"}, {Name: "deck", Hours: 8}}
	today := Choice{Layout: "today", Levels: around(1, 1, 77, 99), Today: true}
	wet := Choice{Layout: "wet", Levels: around(1, 2, 86, 84), Price: f(100)}
	text := Advise([]Choice{today, wet}, seats, 0, "EUR").Text()
	require.Contains(t, text, "9 dB over today (about twice as loud), for the sake of deck (15 dB under today)")
	require.NotContains(t, text, "Mend")
	today.Levels, today.Pressure = around(1, 1, 77, 84), 1.3
	require.Contains(t, Advise([]Choice{today, wet}, seats, 0, "EUR").Text(), "as loud), to spare the engine.")
	today.Out = true
	require.Contains(t, Advise([]Choice{today, wet}, seats, 0, "EUR").Text(), "as loud), as that of today is refused or can't be judged.")
	wet.Levels = around(1, 2, 60, 60)
	require.NotContains(t, Advise([]Choice{today, wet}, seats, 0, "EUR").Text(), "for the sake of")
}

// What sounds as today does is said to, with the reason for it, before anything that a short page cuts.
func TestWhyWhatSoundsAsTodayIsTaken(t *testing.T) {
	seats := []Seat{{Name: "pillow", Limit: f(45)}, {Name: "deck"}}
	today := Choice{Layout: "as is", Levels: around(1, 1, 63, 70), Today: true, Cooked: true}
	cool := Choice{Layout: "fan", Levels: around(1, 1, 63, 70), Price: f(1100)}
	a := Advise([]Choice{today, cool}, seats, 0, "EUR")
	require.Equal(t, []string{`Take "fan" (1100 EUR): 63 dB(A) at pillow, as today; of the 2 that sound the same it keeps the engine cool for the least money.`,
		"It stays over the limit of the file at pillow."}, a.Sentences[:a.Firm])
	cool.Levels = around(1, 1, 63, 50)
	a = Advise([]Choice{today, cool}, seats, 0, "EUR")
	require.Equal(t, `Take "fan" (1100 EUR): 63 dB(A) at pillow, as today, for the sake of deck (20 dB under today).`, a.Sentences[0])
}

// The loudest of all at a seat is not told to be as loud as what it is louder than.
func TestTheLoudestIsCalledSo(t *testing.T) {
	seats := []Seat{{Name: "helm"}, {Name: "deck", Hours: 8}}
	today := Choice{Layout: "today", Levels: around(1, 1, 77, 99), Today: true}
	wet := Choice{Layout: "wet", Levels: around(1, 1, 86, 84), Price: f(100)}
	require.Contains(t, Advise([]Choice{today, wet}, seats, 0, "EUR").Text(), `At helm it is the loudest of them there, 9 dB louder than "today"`)
	other := Choice{Layout: "other", Levels: around(1, 1, 86.4, 84), Price: f(200)}
	require.Contains(t, Advise([]Choice{today, wet, other}, seats, 0, "EUR").Text(), `At helm it is among the loudest there, 9 dB louder than "today"`)
}

// A layout whose engine cooks or starves in its box is not advised without that in the first sentence.
func TestTheBoxIsMendedFirst(t *testing.T) {
	cooked := Choice{Layout: "boxed", Levels: around(1, 1, 60), Price: f(100), Cooked: true}
	a := Advise([]Choice{cooked}, []Seat{{Name: "helm"}}, 0, "EUR")
	require.True(t, a.Mend)
	require.Equal(t, "Mend the box first: in every layout that could be taken an engine grows too hot.", a.Sentences[0])
	limited := Choice{Layout: "cool but starved of pressure", Levels: around(1, 1, 60), Price: f(100), Pressure: 1.2}
	require.Equal(t, `Mend the box first: in "boxed" an engine grows too hot.`, Advise([]Choice{cooked, limited}, []Seat{{Name: "helm"}}, 0, "EUR").Sentences[0])
	cooked.Cooked, cooked.Starved = false, true
	require.Contains(t, Advise([]Choice{cooked}, []Seat{{Name: "helm"}}, 0, "EUR").Sentences[0], "lacks air")
	cooked.Starved = false
	require.False(t, Advise([]Choice{cooked}, []Seat{{Name: "helm"}}, 0, "EUR").Mend)
}

// Nothing is the cheapest by a price of which a part is unknown: a lower stated sum is taken for no price at all.
func TestNeverCheapestByAnUnknown(t *testing.T) {
	levels := around(0, 1, 60)
	seats := []Seat{{Name: "helm"}}
	from := Choice{Layout: "from", Levels: levels, Price: f(1000), From: true}
	whole := Choice{Layout: "whole", Levels: levels, Price: f(2000)}
	unknown := Choice{Layout: "unknown", Levels: levels}
	a := Advise([]Choice{from, whole}, seats, 0, "EUR")
	require.Equal(t, "whole", a.Layout)
	require.Contains(t, a.Text(), "costs least of those whose price is stated in full")
	a = Advise([]Choice{from, unknown}, seats, 0, "EUR")
	require.Contains(t, a.Text(), `"from" (from 1000 EUR)`)
	require.Contains(t, a.Text(), "no price of them is stated in full")
	require.NotContains(t, a.Text(), "costs")
	from.Levels = around(0, 1, 55)
	require.Contains(t, Advise([]Choice{from, whole}, seats, 0, "EUR").Text(), `Take "from" (from 1000 EUR)`)
	require.Contains(t, speech{seats: seats, currency: "EUR"}.dearer(group{whole}, group{from}), "isn't stated in full (from 1000 EUR)")
}

// Whether nobody hears it is the rule as it is written, the median taken in order, also where the median lies between two draws
// on both sides of what is heard.
func TestSameIsItsRule(t *testing.T) {
	r, same := rand.New(rand.NewPCG(3, 4)), 0
	for n := range 6000 {
		d := make([]float64, 2+n%7)
		for i := range d {
			d[i] = []float64{-4, -1.25, -1, -0.75, 0, 0.75, 1, 1.25, 4, r.NormFloat64()}[r.IntN(10)]
		}
		near := 0
		for _, v := range d {
			if math.Abs(v) <= justHeard {
				near++
			}
		}
		want := math.Abs(draws.Quantile(d, 0.5)) < unheard || float64(near) >= unheardCase*float64(len(d))
		require.Equal(t, want, Same(Choice{Levels: [][]float64{d}}, Choice{Levels: [][]float64{make([]float64, len(d))}}, 0), "%v", d)
		if want {
			same++
		}
	}
	require.InDelta(t, 3000, same, 2500)
}
