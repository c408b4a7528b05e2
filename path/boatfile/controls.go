package boatfile

// Control is one value of a boat file that can be changed by itself: stated or not.
type Control struct {
	At       string   // JSON pointer
	Group    string   // the section, and its name or place: "engines main", "layouts as is", "listeners helm"
	Part     string   // of a line: its kind and name; else what encloses the value: "rated", "outlet"
	Label    string   // the key in words
	Value    string   // as written, "" where it is not stated
	Fits     string   // what the schema says of it
	Example  string   // a value that fits, "" = none
	Choices  []string // the words that fit; nil = any
	Required bool     // cannot be left out
	Unknown  bool     // not stated, or said to be unknown
	Taken    string   // what stands in where it is not stated, "" = nothing
	Price    *float64 // dB that not knowing it adds to a level; nil = nothing was taken
	Layout   string   // the layout that it is in; "" = all
}

// Controls are the values that can be changed in a text, in the order of the file; nil where it is no YAML.
func Controls(data []byte) []Control { return nil }
