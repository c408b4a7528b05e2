// Package picture draws what a boat sounds like as SVG in strings: the boat to scale, the ladder of ways to a seat, the
// waterfall from source to seat, the exhaust line to scale, a level with its band, the box round an engine. It knows
// names, metres, dB(A) and texts in the reader's units, nothing of how a figure came about.
//
// It is written with strings.Builder and strconv alone, so that it runs where a page's templates do not. Names are only
// ever text: escaped, control and direction characters taken out. The same input gives the same bytes.
//
// Every picture is a Drawing:
//
//	type Drawing interface{ SVG(id string, w Width) (string, error) }
//
//	func (Boat) SVG(id string, w Width) (string, error)       // side view and view from above, seats with levels, ways
//	func (Ladder) SVG(id string, w Width) (string, error)     // what one hears at a seat by how it gets there
//	func (Waterfall) SVG(id string, w Width) (string, error)  // source to seat, one or two layouts
//	func (Line) SVG(id string, w Width) (string, error)       // an exhaust line to scale
//	func (Band) SVG(id string, w Width) (string, error)       // one level, its band, its limit; fits a table cell
//	func (Box) SVG(id string, w Width) (string, error)        // the box round an engine: air, heat, ways out
//
//	func Fit(id string, d Drawing) (string, error)            // both widths in one <div class="pic">; StyleSheet shows one
//	func StyleSheet() string                                  // once into the page: colours light, dark and in print
//
// id has to be one of its own on the page (letters, digits and dashes): title, description and textures are named by it.
// Narrow is drawn 340 units wide and Wide 760, in text of 12 and 13 units: shown narrow up to 700 px, no text falls under
// 11 px on a screen of 390 px. An input with a number that isn't finite gives an error and no picture.
//
// path/report fills the inputs in: Comparison.Pictures for a layout, Comparison.Waterfall for two of them.
package picture
