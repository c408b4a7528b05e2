package room_test

import (
	"fmt"

	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// A small cabin: where single modes rule, and how much a source raises its level.
func ExampleRoom_Caveat() {
	cabin, err := room.New([3]float64{2, 3, 1.9}, spectrum.Fill(0.2))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(cabin.Caveat())
	fmt.Printf("sound power to level 1 m away: %.1f dB\n", cabin.Gain(1, 1)[5])
	// Output:
	// Schroeder frequency 322 Hz: below the Schroeder frequency single modes rule: ±5 dB and different at every seat
	// sound power to level 1 m away: -2.2 dB
}
