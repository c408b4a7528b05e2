package loss

import (
	"math"

	"hushwake/source/published"
)

// handbookBendLength is the straight length in bores that the installation handbook counts for a bend:
// 15 for 90 degrees and 6.4 for 45, straight lines between and beyond (read from its table).
func handbookBendLength(angle float64) float64 {
	const quarter = math.Pi / 4
	if angle <= quarter {
		return 6.4 * max(angle, 0) / quarter
	}
	return 6.4 + (15-6.4)*(angle-quarter)/quarter
}

// HandbookBend is the same as velocity heads with the handbook's friction.
func HandbookBend(angle float64) Coefficient {
	return Coefficient{K: HandbookFriction * handbookBendLength(angle), Cited: published.By("K = 0.022 x 15 (90 degrees) or 6.4 (45 degrees) bores", "bend lengths of a marine installation manual", asRead), SD: 0.3}
}
