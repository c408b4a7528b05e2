package spectrum

import "math"

// Tenth and Whole are a level, or a difference of levels, dB, as it is told. A document holds thousandths; the tenth comes from the
// thousandth and the whole figure from the tenth, halves away from zero, so that who has the level, the document or the tenth
// tells the same, and never a minus nought: 61.469 is 61.5 and 62. So a whole figure lies up to 0.55 dB from the level, whose doubt is 2 dB and more.
func Tenth(db float64) float64 { return math.Round(math.Round(db*1e3)/100)/10 + 0 }

// Whole is as Tenth.
func Whole(db float64) float64 { return math.Round(Tenth(db)) + 0 }
