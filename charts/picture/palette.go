package picture

import (
	"slices"
	"strings"
)

// Way is how sound leaves its source, spelled as in the documents.
type Way string

// Ways; "" is a sum of several.
const (
	Outlet     Way = "outlet"
	LineWall   Way = "line wall"
	Air        Way = "air"
	Structure  Way = "structure"
	BoxOpening Way = "box opening"
	Background Way = "background"
	Together   Way = ""
)

// paint is how a way is told from the others: a colour on light and on dark, a letter, a texture in its bars, dashes in its
// arrows, words.
type paint struct {
	way         Way
	name        string // of its class and custom property
	light, dark string
	letter      string
	words       string
	dash        string
	texture     string // path in a square of 8 by 8, drawn over the colour
}

// The hues are those of Okabe and Ito, Color Universal Design (2008), chosen to be told apart by people who don't see red from
// green: blue, vermillion, bluish green, reddish purple, orange; each made so dark on light and so light on dark
// that it stands 3:1 from the paper, which their own orange and sky blue don't, and that any two lie as far apart as a search
// could bring them for eyes without red or green receptors (by the matrices of Viénot, Brettel and Mollon, 1999). What the ear
// hears without the engine is grey.
var paints = []paint{
	{Outlet, "outlet", "#1471bb", "#288cff", "O", "out of the pipe’s end", "", ""},
	{LineWall, "line-wall", "#bc5701", "#dd813c", "W", "through the walls of the line", "3 2.5", "M0 8L8 0M-2 2L2 -2M6 10L10 6"},
	{Air, "air", "#027d59", "#1bb88d", "A", "from the engine through air", "9 4", "M2 2h2v2h-2zM6 6h2v2h-2z"},
	{Structure, "structure", "#9f0170", "#ed5ebf", "M", "through mounts and hull", "11 3 2.5 3", "M2 0V8M6 0V8"},
	{BoxOpening, "box-opening", "#614a18", "#f1b111", "B", "out of the box’s openings", "6 2 6 6", "M0 2H8M0 6H8"},
	{Background, "background", "#2f3235", "#e4e5e7", "N", "without the engine: sea, wind, boat", "1.5 4", "M0 0L8 8M0 8L8 0"},
}

// mixed is what no single way stands for.
var mixed = paint{Together, "mixed", "#74808b", "#87919b", "+", "by many quiet ways together", "2 2", "M0 4H8M4 0V8"}

func paintOf(w Way) paint {
	for _, p := range paints {
		if p.way == w {
			return p
		}
	}
	return mixed
}

// Words say in plain language how sound comes by a way.
func (w Way) Words() string { return paintOf(w).words }

// fill and stroke give class and fallback.
func (p paint) fill() []string { return []string{"class", "pf-" + p.name, "fill", p.light} }

func (p paint) stroke(width string) []string {
	s := []string{"class", "ps-" + p.name, "stroke", p.light, "fill", "none", "stroke-width", width}
	if p.dash != "" {
		s = append(s, "stroke-dasharray", p.dash)
	}
	return s
}

// Other colours, light; StyleSheet has the dark ones.
const (
	card  = "#ffffff"
	muted = "#55606b"
	faint = "#d9dcdf"
	grey  = "#87919b" // band bars: 3:1 on light and, as #74808b, on dark
	alarm = "#a8241c"
	water = "#e3eff8"
	ink   = "#16202a"
)

// themed are the names of the other colours with their light and dark values. Where the page has properties of its own for
// paper, text and rules, they rule.
var themed = [][3]string{
	{"card", card, "#17212a"}, {"muted", muted, "#a9b4bd"}, {"rule", faint, "#34414c"}, {"grey", grey, "#74808b"},
	{"alarm", alarm, "#ff8d7f"}, {"water", water, "#1d3446"}, {"ink", ink, "#eef2f4"},
}

func themeFill(name string) []string {
	for _, t := range themed {
		if t[0] == name {
			return []string{"class", "pf-" + name, "fill", t[1]}
		}
	}
	return []string{"fill", "none"}
}

func themeStroke(name, width string, more ...string) []string {
	for _, t := range themed {
		if t[0] == name {
			return append([]string{"class", "ps-" + name, "stroke", t[1], "fill", "none", "stroke-width", width}, more...)
		}
	}
	return nil
}

// textures are the patterns of the ways that a picture's bars use, in the colour of the paper over that of the way.
func (p *pen) textures(ways []Way) {
	if len(ways) == 0 {
		return
	}
	p.WriteString("<defs>")
	for k, w := range ways {
		if t := paintOf(w); t.texture != "" && !slices.Contains(ways[:k], w) {
			p.open("pattern", "id", p.id+"-"+t.name, "width", "8", "height", "8", "patternUnits", "userSpaceOnUse")
			p.empty("path", append([]string{"d", t.texture}, themeStroke("card", "1.4", "stroke-opacity", ".75")...)...)
			p.shut("pattern")
		}
	}
	p.WriteString("</defs>")
}

// bar is a bar of a way: its colour and, over it, its texture.
func (p *pen) bar(r rect, w Way) {
	t := paintOf(w)
	p.rect(r, t.fill()...)
	if t.texture != "" {
		p.rect(r, "fill", "url(#"+p.id+"-"+t.name+")")
	}
}

// tile is the letter of a way in its colour.
func (p *pen) tile(x, y, side float64, w Way) {
	t := paintOf(w)
	p.rect(rect{x, y, side, side}, append(t.fill(), "rx", "3")...)
	p.text(x+side/2, y+side*0.82, t.letter, append(themeFill("card"), "text-anchor", "middle", "font-weight", "700", "font-size", p.num(side*0.88))...)
}

// StyleSheet is what a page needs once: the colours on light, on dark and in print, and which width is shown. The page may
// set any of the properties (--way-outlet and so on) itself.
func StyleSheet() string {
	light, dark, rules := "", "", ""
	property := func(name, prefix, onLight, onDark string) {
		light += prefix + name + ":" + onLight + ";"
		dark += prefix + name + ":" + onDark + ";"
		rules += ".pf-" + name + "{fill:var(" + prefix + name + ")}.ps-" + name + "{stroke:var(" + prefix + name + ")}\n"
	}
	for _, p := range append(paints[:len(paints):len(paints)], mixed) {
		property(p.name, "--way-", p.light, p.dark)
	}
	for _, t := range themed {
		property(t[0], "--pic-", t[1], t[2])
	}
	return strings.Join([]string{
		":root{" + light + "}",
		`@media (prefers-color-scheme:dark){:root:not([data-theme="light"]){` + dark + "}}",
		`:root[data-theme="dark"]{` + dark + "}",
		"@media print{:root:root,:root[data-theme]{" + light + "}}",
		rules + ".pic-svg{display:block;width:100%;height:auto;font-family:inherit}",
		".pic{max-width:960px}.pic-narrow{display:none}",
		"@media (max-width:699px){.pic-wide{display:none}.pic-narrow{display:block}}",
		"@media print{.pic-wide{display:block}.pic-narrow{display:none}}",
		".pic-band{width:120px;height:auto;display:inline-block;vertical-align:middle}", ""}, "\n")
}
