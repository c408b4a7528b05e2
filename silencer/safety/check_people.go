package safety

import (
	"hushwake/source"
	"hushwake/source/said"
)

const (
	nearOpening = 3.0 // m
	farOpening  = 6.1 // m, 20 ft
)

// Monoxide is the code of the danger that every engine brings, whatever its line and its outlet.
const Monoxide = "CARBON-MONOXIDE"

// people names carbon monoxide, by how near the outlet is to rooms and persons.
func (i *inspection) people() {
	const act = "move or aim the outlet away, keep openings beside it shut under way and at anchor with the engine running"
	if d := i.c.NearestOpening; d != nil && *d < farOpening {
		f := Finding{Code: "CO-NEAR-OPENING", Severity: Caution, Action: act, Element: "outlet", Source: "20 ft rule for carbon monoxide around running engines; graver under 3 m: judgement",
			Text: said.Textf("Exhaust gas can be drawn in by an opening (%s) {%.1f m} from the outlet.", i.c.OpeningName, *d)}
		if *d < nearOpening {
			f.Severity = Warning
		}
		if *d < nearOpening && i.c.SleepsAboard {
			f.Severity = Danger
			f.Text += " People sleep aboard."
		}
		i.add(f)
	}
	if d := i.c.NearestPerson; d != nil && *d < nearOpening {
		i.add(Finding{Code: "CO-NEAR-PERSON", Severity: Caution, Action: act, Element: "outlet", Source: practice,
			Text: said.Textf("People breathe and touch what comes out of the outlet: it is {%.1f m} from %s.", *d, i.c.PersonName)})
	}
	i.add(Finding{Code: Monoxide, Severity: Danger, Source: "national poisoning statistics of boating; ABYC A-24 on detection",
		Text:   "Exhaust gas kills without smell: it comes through weeping joints, gaps at the stack and by the suction behind a moving boat. An outlet moved for quiet sends the gas elsewhere.",
		Action: "a carbon monoxide alarm in every sleeping space, tight joints, and a check with smoke after every change"})
	if i.c.Engine.Fuel == source.NaturalGas {
		i.add(Finding{Code: "GAS-FUEL", Severity: Warning, Source: practice,
			Text: "Gas fuel: a leak lights from a hot exhaust, and liquefied petroleum gas is heavier than air and fills the bilge.", Action: "gas detectors and shut-off valves fitted by a licensed person; run the blower first; hot parts lagged"})
	}
	if i.c.Engine.Fuel == source.Petrol {
		i.add(Finding{Code: "PETROL", Severity: Warning, Source: practice,
			Text: "Petrol: far more carbon monoxide than diesel, and vapour that lights.", Action: "ignition-protected parts only; run the blower first"})
	}
}

// standing are the cautions that every line carries.
func (i *inspection) standing() {
	i.add(Finding{Code: CodeLicensed, Severity: Note, Source: "local codes, flag and class rules, the engine's maker",
		Text:   "This is an estimate, not an approval: the engine maker's limits and local codes govern. Hot work, openings in the hull, fuel, gas and class items need a licensed person.",
		Action: "ask before cutting; drill a pressure tap only with the engine cold and stopped"})
	if i.dry() {
		i.add(Finding{Code: "BURNS", Severity: Caution, Source: practice,
			Text: "A dry exhaust stays hot enough to burn for a long time after the engine has stopped.", Action: "guard what people can reach; wait before working on it"})
	}
	if i.c.Engine.Aspiration == source.Turbocharged {
		i.add(Finding{Code: "TURBO-LOAD", Severity: Note, Source: practice,
			Text: "A turbocharger must not carry the weight of the pipe.", Action: "support the run on its own and put a bellows behind the turbine"})
	}
}
