package chambers

import "hushwake/silencer/fourpole"

// faded is the amplitude, over that of the wave that fades least, under which a wave is not heard at the other end: e^-deaf.
var faded = 1e-12

// hearing puts the waves that reach the other end first and counts them; the others end before it.
func hearing(order []int, far []complex128) (n int) {
	least := 0.0
	for _, m := range order {
		least = max(least, fourpole.Size1(far[m]))
	}
	least *= faded
	for i, m := range order {
		if fourpole.Size1(far[m]) < least {
			far[m] = 0
			continue
		}
		order[i], order[n] = order[n], m
		n++
	}
	return n
}
