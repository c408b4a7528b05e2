// Package sketch holds the small pictures of the interview as SVG: parts, walls, seats, ideas. Each is for the eye alone; the words
// beside it say the same. Colours come from the style sheet of the page.
package sketch

import "strings"

// SVG is the picture of a name; "" = there is none.
func SVG(name string) string {
	body, ok := sketches[name]
	if !ok {
		return ""
	}
	return `<svg class="sketch" viewBox="0 0 120 80" aria-hidden="true">` + body + "</svg>"
}

// path and the like are strokes in the colours of the style sheet: ink, body (filled with the paper), full, wet, hot, soft.
func path(d string) string { return `<path d="` + d + `"/>` }

func in(class, d string) string { return `<path class="` + class + `" d="` + d + `"/>` }

func words(x, y, text string) string {
	return `<text x="` + x + `" y="` + y + `" text-anchor="middle" font-size="15" stroke="none" fill="currentColor">` + text + "</text>"
}

const (
	waves   = `<path class="wet" d="M4 66q7-5 14 0t14 0 14 0 14 0 14 0 14 0 14 0 12 0"/>`
	hull    = `<path class="body" d="M10 46H112L98 64H16Z"/>`
	house   = `<path class="body" d="M36 46V26H74L84 46"/>`
	engine  = `<path class="body" d="M30 28H84V60H30ZM38 28V20H76V28M30 60H22M84 60H92"/>`
	walls   = `<path class="soft" d="M8 12H112M8 70H112"/>`
	sound   = `<path class="hot" d="M14 30q6 11 0 22M22 26q8 15 0 30M30 22q10 19 0 38"/>`
	quieter = `<path class="soft" d="M92 34q4 7 0 14"/>`
	loud    = `<path class="hot" d="M86 26q10 15 0 30M94 22q12 19 0 38"/>`
	crate   = `<path class="body" d="M24 14H96V68H24Z"/>`
	frames  = `<path d="M34 46V64M56 46V64M78 46V64"/>`
	tube    = `<path class="body" d="M6 30H114V50H6Z"/>`
)

func boat(more string) string { return hull + house + waves + more }

// wall is a wall between sound and a quieter side.
func wall(leaves string) string { return walls + sound + leaves + quieter }

func boxed(more string) string { return crate + in("soft", "M44 34H78V58H44Z") + more }

func box(x, y, w, h string) string {
	return `<rect class="body" x="` + x + `" y="` + y + `" width="` + w + `" height="` + h + `"/>`
}

func dot(x, y string) string { return `<circle cx="` + x + `" cy="` + y + `" r="5" class="full"/>` }

var sketches = map[string]string{
	"loud": boat(in("hot", "M8 30q-6 8 0 16M2 26q-8 12 0 24")), "quotes": box("34", "8", "52", "64") + path("M44 24H76M44 36H76M44 48H64"), "box": boxed(loud), "file": box("34", "8", "52", "64") + words("60", "46", ".yaml"),

	"hull-grp": boat(in("soft", "M30 56H90")), "hull-aluminium": boat(frames), "hull-steel": boat(frames), "hull-wood": boat(in("soft", "M12 50H108M15 55H104M16 60H100")),
	"cycle-4": box("38", "10", "44", "60") + path("M38 40H82M60 40V62") + words("60", "32", "4"), "cycle-2": box("38", "10", "44", "60") + path("M38 40H82M60 40V62") + words("60", "32", "2"),
	"natural": engine, "turbo": engine + `<circle class="body" cx="92" cy="22" r="14"/>` + path("M92 22q6-8 12 0M92 22q-2 9-11 6M106 22H116"), "blower": engine + box("40", "6", "36", "14") + path("M48 13H68"),
	"mount-rigid": engine + path("M10 66H110M24 60V66M90 60V66"), "mount-rubber": engine + box("18", "60", "10", "8") + box("86", "60", "10", "8") + path("M10 70H110"),
	"mount-soft": engine + box("14", "58", "18", "14") + box("82", "58", "18", "14") + path("M10 74H110"), "mount-double": engine + box("18", "60", "10", "5") + box("86", "60", "10", "5") + path("M14 67H104") + box("18", "69", "10", "5") + box("86", "69", "10", "5") + path("M8 76H112"),

	"wet": boat(in("wet", "M10 52H2q-2 4-2 10M8 56q-4 2-4 8")), "dry": boat(path("M30 46V10M36 46V10") + in("hot", "M33 8q-6-3 0-6")),
	"out-aft": boat(in("hot", "M12 54H0M4 50L0 54L4 58")), "out-port": `<path class="body" d="M10 24Q70 4 114 40Q70 76 10 56Z"/>` + in("hot", "M36 20V4M32 8L36 4L40 8"), "out-starboard": `<path class="body" d="M10 24Q70 4 114 40Q70 76 10 56Z"/>` + in("hot", "M36 60V76M32 72L36 76L40 72"),
	"out-up": boat(path("M30 46V16") + in("hot", "M30 12V2M26 6L30 2L34 6")), "out-water": boat(in("hot", "M16 62L6 74M6 68V74H12")),

	"pipe": tube, "bend": path("M6 24H60q26 0 26 26V76M6 44H56q10 0 10 10V76"), "bellows": path("M6 30H24M6 50H24M96 30H114M96 50H114") + in("body", "M24 26l6 8 6-8 6 8 6-8 6 8 6-8 6 8 6-8 6 8 6-8 6 8V54l-6-8-6 8-6-8-6 8-6-8-6 8-6-8-6 8-6-8-6 8-6-8-6 8Z"),
	"silencer": path("M4 34H24M4 46H24M96 34H116M96 46H116") + box("24", "18", "72", "44"), "injection": tube + in("wet", "M60 6V26M54 34l-6 6M60 34v8M66 34l6 6"), "hose": tube + in("soft", "M20 30q6 10 0 20M40 30q6 10 0 20M60 30q6 10 0 20M80 30q6 10 0 20M100 30q6 10 0 20"),
	"lift": box("34", "18", "56", "52") + path("M20 8H46V58M78 40V6H110") + in("wet", "M34 52q7-4 14 0t14 0 14 0 14 0"), "separator": box("38", "14", "44", "52") + path("M8 40H38") + in("hot", "M60 14V2M56 6L60 2L64 6") + in("wet", "M60 66V78M56 74L60 78L64 74"),

	"wall-thin": wall(box("56", "12", "4", "58")), "wall-board": wall(box("54", "12", "10", "58")), "wall-steel": wall(`<rect class="full" x="56" y="12" width="6" height="58"/>`),
	"wall-insulated": wall(`<rect class="full" x="44" y="12" width="4" height="58"/>` + in("soft", "M50 14l6 8-6 8 6 8-6 8 6 8-6 8 6 6") + box("60", "12", "8", "58")), "wall-double": wall(box("48", "12", "6", "58") + in("soft", "M58 14l6 8-6 8 6 8-6 8 6 8-6 8 6 6") + box("68", "12", "6", "58")),
	"door-none": wall(box("54", "12", "8", "58")), "door-sealed": box("30", "8", "60", "68") + box("40", "14", "40", "58") + in("full", "M44 18H76V68H44Z") + dot("74", "44"), "door-gaps": box("30", "8", "60", "68") + box("42", "18", "36", "52") + dot("72", "44") + in("hot", "M36 20V70M84 20V70"),
	"door-vent": box("30", "8", "60", "68") + path("M42 26H78M42 36H78M42 46H78M42 56H78"), "door-open": box("30", "8", "60", "68") + in("full", "M30 8L54 20V78L30 76Z") + in("hot", "M66 30q8 12 0 24"),
	"lining-bare": crate, "lining-foam": crate + in("soft", "M30 20H90V62H30ZM36 20V62M44 20V62M52 20V62M60 20V62M68 20V62M76 20V62M84 20V62"), "lining-wool": crate + in("soft", "M38 28H82V54H38ZM24 14L38 28M96 14L82 28M24 68L38 54M96 68L82 54M28 30l6 6-6 6 6 6M92 30l-6 6 6 6-6 6"),

	"seat-cabin": boat(dot("62", "56")), "seat-helm": boat(dot("66", "38")), "seat-cockpit": boat(dot("22", "38")),
	"breath-box": boxed(in("wet", "M34 46H44M40 42L44 46L40 50")), "breath-pipe": boxed(in("wet", "M6 28H50V34M46 30L50 34L54 30")), "fan-none": crate, "fan": crate + `<circle cx="60" cy="40" r="18"/>` + path("M60 40q10-14 14-2M60 40q-14 6-10-10M60 40q4 16-10 12"),
	"cool-air": boxed(path("M82 40H90M82 46H90M82 52H90")), "cool-water": boxed(in("wet", "M78 40H112M78 52H112")), "hole-in": boxed(in("wet", "M4 58H34M28 52L34 58L28 64")), "hole-out": boxed(in("hot", "M86 24H116M110 18L116 24L110 30")), "hole-gap": boxed(in("hot", "M20 10L100 14")),

	"of-length": boat(path("M10 76H112M14 72L10 76L14 80M108 72L112 76L108 80")), "of-power": engine + words("57", "50", "kW"), "of-set-power": engine + words("57", "50", "kW"), "of-speed": engine + words("57", "50", "rpm"), "of-running": gauge, "of-limit": tube + words("60", "45", "kPa"),
	"of-level": phone, "of-box-size": boxed(path("M24 74H96M100 14V68")), "of-box-warm": boxed(in("hot", "M60 24V44")),
	"idea-clean": path("M4 34H24M96 34H116") + box("24", "18", "72", "44") + in("wet", "M44 30l32 20M76 30L44 50"), "idea-second": box("8", "24", "40", "32") + box("72", "24", "40", "32") + path("M48 40H72"), "idea-wet": box("34", "18", "56", "52") + path("M20 8H46V58M78 40V6H110") + in("wet", "M34 52q7-4 14 0t14 0 14 0 14 0"),
	"idea-seal": box("30", "8", "60", "68") + box("40", "14", "40", "58") + in("full", "M44 18H76V68H44Z"), "idea-wall": wall(`<rect class="full" x="44" y="12" width="6" height="58"/>` + box("56", "12", "10", "58")), "idea-mounts": engine + box("14", "58", "18", "14") + box("82", "58", "18", "14"), "idea-box": boxed(""), "idea-ducts": boxed(in("wet", "M4 58H34") + in("hot", "M86 24H116")), "idea-mat": boxed(in("full", "M24 14H32V68H24Z")),
}

var (
	gauge = `<circle class="body" cx="60" cy="42" r="32"/>` + path("M36 54L40 51M60 14V20M84 54L80 51M60 42L78 28") + words("60", "66", "rpm")
	phone = strings.Join([]string{`<rect class="body" x="40" y="4" width="40" height="72" rx="6"/>`, words("60", "44", "dB"), in("soft", "M52 68H68")}, "")
)
