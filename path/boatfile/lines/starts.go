package lines

import "strings"

// Found is what a part that is put into a line finds there, each as a file writes it.
type Found struct {
	Bore   string   // of the part beside it
	Offers []string // names of the file's quotes
	Open   string   // a name for a place that is left open
}

// Start is a kind of part as it is put into a line, to be changed at once.
type Start struct{ Kind, Words, Item string }

// Starts are the kinds that can be put into a line, in the order of the manual; those made of offers only where the file has some.
func Starts(f Found) (all []Start) {
	put := strings.NewReplacer("BORE", f.Bore, "OFFERS", strings.Join(f.Offers, ", "), "OFFER", strings.Join(f.Offers[:min(1, len(f.Offers))], ""), "OPEN", f.Open)
	for _, k := range elementTable() {
		if len(f.Offers) > 0 || !strings.Contains(k.begins, "OFFER") {
			all = append(all, Start{k.name, k.words, "{" + k.name + ": " + put.Replace(k.begins) + "}"})
		}
	}
	return all
}
