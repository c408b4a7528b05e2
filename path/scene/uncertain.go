package scene

import (
	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Standard deviations of the chain, dB by band. All are judgement unless a source stands beside them.
var (
	// a band's energy may sit on other orders than the model's
	orderPatternSD = spectrum.Bands{2.5, 2, 1.5, 1.5, 1, 0.5, 0.5, 0.5, 0.5}
	// beaming of a hot, flowing outlet by ka
	directivitySD = spectrum.Bands{0.5, 0.5, 0.5, 0.5, 1, 1.5, 2, 3, 3}
	shieldingSD   = spectrum.Bands{1, 1, 1, 1.5, 2, 2.5, 3, 3, 3}
)

func orderPattern(engine string) path.Uncertain {
	return path.Uncertain{Term: "order pattern", Key: "order pattern/" + engine, SD: orderPatternSD, Source: "judgement"}
}

// flowNoise weighs the error of the flow noise with its share in the outlet's energy.
func flowNoise(engine string, r path.ExhaustResult) path.Uncertain {
	var sd spectrum.Bands
	for i := range sd {
		sd[i] = 5 * spectrum.Power(r.Acoustics.SelfNoise[i]-r.OutletPower[i])
	}
	return path.Uncertain{Term: "flow noise", Key: "flow noise/" + engine, SD: sd,
		Source: "judgement; one measured silencer, 5 dB at best"}
}

// lineUncertain lists what makes the loss of a line uncertain: the same models, holes and offers share their
// error, whatever the engine, the line and the layout.
func lineUncertain(a silencer.Acoustics) (all []path.Uncertain) {
	for _, d := range a.Doubts {
		all = append(all, uncertain(d))
	}
	return all
}

func uncertain(d silencer.Doubt) path.Uncertain {
	return path.Uncertain{Term: d.Term, Key: d.Key, Mix: d.Mix, SD: d.SD, Source: d.Source}
}
