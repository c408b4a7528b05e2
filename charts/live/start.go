package live

// goals are what somebody may want to know, in words and as the interview names them.
var goals = [][2]string{
	{"My exhaust is too loud", "too-loud"}, {"Someone quoted me silencers", "quotes"}, {"My generator box", "box"}, {"I have a boat file", "file"},
}

// interview is the first screen while there is no file, and the doubt that is left.
func (d *Desk) interview() (html, doubt string) {
	if len(d.last.Text) > 0 {
		return "", ""
	}
	var m markup
	m.leaf("h2", "What do you want to know?")
	m.open("p", "class", "goals")
	for _, g := range goals {
		m.leaf("button", g[0], "type", "button", "data-op", "begin", "data-to", g[1])
	}
	m.shut("p")
	return m.String(), ""
}
