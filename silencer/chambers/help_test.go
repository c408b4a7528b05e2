package chambers

import (
	"pgregory.net/rapid"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/fourpole/fourpoletest"
)

var (
	near       = fourpoletest.Near
	drawBore   = fourpoletest.DrawBore
	sameMatrix = fourpoletest.SameMatrix[fourpole.Matrix]
)

func must[V any](v V, err error) V { return fourpoletest.Must(v, err) }

func drawMedium(r *rapid.T, what string) fourpole.Medium {
	m := fourpole.StandardAir()
	m.SoundSpeed = rapid.Float64Range(330, 600).Draw(r, what+" c")
	m.Density = rapid.Float64Range(0.4, 1.3).Draw(r, what+" rho")
	return m
}
