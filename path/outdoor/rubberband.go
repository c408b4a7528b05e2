package outdoor

import "math"

// few is for how many corners room is kept beside them; more are rare.
const few = 16

// hull are the points that a band touches.
type hull [few + 2]int

// upperHull keeps the points that a band stretched from (0, a) to (1, b) over all points would touch, in room.
func upperHull(room *hull, points [][2]float64, start, end [2]float64) []int {
	var kept [few + 1]int
	order := kept[:0]
	if len(points) > few {
		order = make([]int, 0, len(points)+1)
	}
	order = order[:len(points)]
	for i, p := range points { // few points: sorted as they are put in
		j := i
		for ; j > 0; j-- {
			q := points[order[j-1]]
			if q[0] < p[0] || q[0] == p[0] && q[1] >= p[1] {
				break
			}
			order[j] = order[j-1]
		}
		order[j] = i
	}
	at := func(i int) [2]float64 {
		switch i {
		case -1:
			return start
		case -2:
			return end
		}
		return points[i]
	}
	hull := append(room[:0], -1)
	for k, i := range append(order, -2) {
		if i >= 0 && k > 0 && points[order[k-1]][0] == points[i][0] {
			continue // the highest at one place is enough
		}
		for len(hull) > 1 && turn(at(hull[len(hull)-2]), at(hull[len(hull)-1]), at(i)) >= 0 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, i)
	}
	return hull[1 : len(hull)-1]
}

// turn is positive where a, b, c bend upwards.
func turn(a, b, c [2]float64) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

// bend is the point of the edge by which the way from a to b is shortest: the straight line after
// turning both into one plane, held within the edge's ends.
func bend(a, b Point, e Segment) Point {
	d := sub(e.To, e.From)
	n := dot(d, d)
	if n == 0 {
		return e.From
	}
	ta, tb := dot(sub(a, e.From), d)/n, dot(sub(b, e.From), d)/n
	ha, hb := distance(a, along(e.From, e.To, ta)), distance(b, along(e.From, e.To, tb))
	t := (ta + tb) / 2
	if ha+hb > 0 {
		t = (ta*hb + tb*ha) / (ha + hb)
	}
	return along(e.From, e.To, math.Max(0, math.Min(1, t)))
}
