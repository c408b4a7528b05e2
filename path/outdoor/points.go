package outdoor

import "math"

// Point is a place in ship's axes, m: x forward, y to starboard, z above the waterline.
type Point = [3]float64

// Box is an axis-aligned body that shields, such as a wheelhouse: Min is its aft, port, lowest corner.
type Box struct {
	Name     string
	Min, Max Point
	image    bool // reaches as far below a reflecting plane as over it
}

// BoxAt makes a body from the corner and the size of a space.
func BoxAt(name string, at, size Point) Box {
	return Box{Name: name, Min: at, Max: Point{at[0] + size[0], at[1] + size[1], at[2] + size[2]}}
}

// Segment is a straight edge whose body hangs below it, such as the edge of a roof or a dodger.
type Segment struct {
	Name     string
	From, To Point
	image    bool // likewise
}

func sub(a, b Point) Point { return Point{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }

func dot(a, b Point) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func norm(a Point) float64 { return math.Sqrt(dot(a, a)) }

func along(a, b Point, t float64) Point {
	return Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1]), a[2] + t*(b[2]-a[2])}
}
