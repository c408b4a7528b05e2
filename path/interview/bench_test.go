package interview_test

import "testing"

// What a screen costs after an answer: the next question's price and the doubt of the boat.
func BenchmarkScreenAfterAnAnswer(b *testing.B) {
	v := begun(b, "too-loud")
	if _, err := v.Doubt(); err != nil {
		b.Fatal(err)
	}
	for i := 0; b.Loop(); i++ {
		if err := v.Answer("power", []string{"40 kW", "41 kW", "42 kW"}[i%3]); err != nil {
			b.Fatal(err)
		}
		if _, err := v.Price("speed"); err != nil {
			b.Fatal(err)
		}
		if _, err := v.Doubt(); err != nil {
			b.Fatal(err)
		}
	}
}
