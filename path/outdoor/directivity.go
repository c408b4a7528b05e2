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

// crossMode is the ka of the first cross mode of a round pipe, above which the field is less beamed.
const crossMode = 1.8412

// patternLimit is the largest ka the plane-wave pattern is computed for; the first axisymmetric
// mode starts at 3.832. A larger ka takes the pattern at this one.
const patternLimit = 3.5

// sideLimit is the lowest gain in dB believed above the first cross mode (common practice, no source).
const sideLimit = -8.0

const (
	kaStep    = 0.05
	thetaStep = math.Pi / 90
	kaSteps   = 70 // to patternLimit
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

// directivity is the gain in dB over a source that radiates alike all round, of an unflanged round
// pipe carrying a plane wave, at the angle theta (rad) from its own axis. ka is wave number times
// radius. It is interpolated in a table of the exact solution; above patternLimit it stays there.
// The mean of the gain over the sphere is 1. See DirectivityCited.
func directivity(ka, theta float64) float64 {
	x := math.Min(math.Max(ka, 0), patternLimit) / kaStep
	theta = math.Abs(math.Remainder(theta, 2*math.Pi))
	y := theta / thetaStep
	i, j := min(int(x), kaSteps-1), min(int(y), 89)
	x, y = x-float64(i), y-float64(j)
	t := pattern()
	return (1-x)*((1-y)*t[i][j]+y*t[i][j+1]) + x*((1-y)*t[i+1][j]+y*t[i+1][j+1])
}

// PipeDirectivity is the gain of a pipe's mouth by octave band: bore in m, theta in rad from the
// pipe's axis, speed of sound of the open air in m/s. Above the first cross mode it is not
// believed below sideLimit.
func PipeDirectivity(bore, theta, soundSpeed float64) (b spectrum.Bands) {
	for i, f := range spectrum.Exact {
		ka := math.Pi * f * bore / soundSpeed
		b[i] = directivity(ka, theta)
		if ka > crossMode {
			b[i] = math.Max(b[i], sideLimit)
		}
	}
	return b
}

// BeyondPattern says from where on a pipe of that bore (m) is wider than the plane-wave pattern reaches; nil where no
// band is. There the pattern at patternLimit is used. The speed of sound is in m/s.
func BeyondPattern(bore, soundSpeed float64) []string {
	for _, f := range spectrum.Exact {
		if math.Pi*f*bore/soundSpeed > patternLimit {
			return []string{said.Textf("The pattern of plane waves ends at ka %.1f, for {%.0f mm} at %.0f Hz; above that it stays as there.",
				patternLimit, bore*1e3, patternLimit*soundSpeed/(math.Pi*bore))}
		}
	}
	return nil
}
