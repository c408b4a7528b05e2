package outdoor

import (
	"math"
	"sync"

	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// DirectivityCited cites the pattern of a pipe, which is checked by its energy balance.
var DirectivityCited = published.By("unflanged pipe by ka and angle", "Levine and Schwinger, Physical Review 73 (1948)", "from memory")

// CrossMode is the ka of the first cross mode of a round pipe, above which the field is less beamed.
const CrossMode = 1.8412

// PatternLimit is the largest ka the plane-wave pattern is computed for; the first axisymmetric
// mode starts at 3.832. A larger ka takes the pattern at this one.
const PatternLimit = 3.5

// SideLimit is the lowest gain in dB believed above the first cross mode (common practice, no source).
const SideLimit = -8.0

const (
	kaStep    = 0.05
	thetaStep = math.Pi / 90
	kaSteps   = 70 // to PatternLimit
)

// pattern holds the gain in dB by ka and angle; made once from the exact solution.
var pattern = sync.OnceValue(func() *[kaSteps + 1][91]float64 {
	var t [kaSteps + 1][91]float64
	for i := 1; i <= kaSteps; i++ {
		m := newMouth(kaStep * float64(i))
		for j := range t[i] {
			t[i][j] = 10 * math.Log10(m.gain(thetaStep*float64(j)))
		}
	}
	return &t
})

// Directivity is the gain in dB over a source that radiates alike all round, of an unflanged round
// pipe carrying a plane wave, at the angle theta (rad) from its own axis. ka is wave number times
// radius. It is interpolated in a table of the exact solution; above PatternLimit it stays there.
// The mean of the gain over the sphere is 1. See DirectivityCited.
func Directivity(ka, theta float64) float64 {
	x := math.Min(math.Max(ka, 0), PatternLimit) / kaStep
	theta = math.Abs(math.Remainder(theta, 2*math.Pi))
	y := theta / thetaStep
	i, j := min(int(x), kaSteps-1), min(int(y), 89)
	x, y = x-float64(i), y-float64(j)
	t := pattern()
	return (1-x)*((1-y)*t[i][j]+y*t[i][j+1]) + x*((1-y)*t[i+1][j]+y*t[i+1][j+1])
}

// PipeDirectivity is the gain of a pipe's mouth by octave band: bore in m, theta in rad from the
// pipe's axis, speed of sound of the open air in m/s. Above the first cross mode it is not
// believed below SideLimit.
func PipeDirectivity(bore, theta, soundSpeed float64) (b spectrum.Bands) {
	for i, f := range spectrum.Exact {
		ka := math.Pi * f * bore / soundSpeed
		b[i] = Directivity(ka, theta)
		if ka > CrossMode {
			b[i] = math.Max(b[i], SideLimit)
		}
	}
	return b
}

// BeyondPattern says from where on a pipe of that bore (m) is wider than the plane-wave pattern reaches; nil where no
// band is. There the pattern at PatternLimit is used. The speed of sound is in m/s.
func BeyondPattern(bore, soundSpeed float64) []string {
	for _, f := range spectrum.Exact {
		if math.Pi*f*bore/soundSpeed > PatternLimit {
			return []string{said.Textf("The pattern of plane waves ends at ka %.1f, for {%.0f mm} at %.0f Hz; above that it stays as there.",
				PatternLimit, bore*1e3, PatternLimit*soundSpeed/(math.Pi*bore))}
		}
	}
	return nil
}
