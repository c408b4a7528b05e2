package room

import "hushwake/source/spectrum"

// Sink is the far side of a wall behind which sound does not come back: the open air.
const Sink = -1

// Joint is a wall between two rooms, by their places in a list, or between a room and Sink.
type Joint struct {
	Rooms   [2]int
	Through spectrum.Bands // S t, m2: area times the share of the power on it that passes
}

// Balance is the power balance of rooms joined by walls, in every band:
//
//	A_r I_r - sum_s (S t)_rs I_s = W_r,   A_r = S_r a_r + 4 m V_r + sum_j S_j t_j
//
// I is the sound power that meets a square metre of the walls, over all reflections, W the power given
// off in the room. What a wall lets through is a term of its own beside the lining's S a: where a wall
// stands open this counts its face twice, by at most a of its area, and all power that enters is either
// absorbed or passed on. Valid where fields are diffuse. Source: see ThroughSource.
type Balance struct {
	rooms    int
	incident []spectrum.Bands // [at*rooms+from], 1/m2
}

// Couple sets up and solves the balance of rooms joined by walls, and gives the rooms with what their walls
// let through added to their absorption.
//
// The rooms are the nodes of a network of conductances, S t between them and the absorption to ground.
// Eliminating node by node needs no subtraction (Grassmann, Taksar and Heyman, Operations Research 33
// (1985)), so that nothing is lost between a pin-hole and an open wall.
func Couple(rooms []Room, walls []Joint) (Balance, []Room) {
	n := len(rooms)
	b := Balance{rooms: n, incident: make([]spectrum.Bands, n*n)}
	coupled := append([]Room(nil), rooms...)
	for i := range walls {
		for k, r := range walls[i].Rooms {
			if r != Sink && r != walls[i].Rooms[1-k] {
				coupled[r].Absorption = coupled[r].Absorption.Plus(walls[i].Through)
			}
		}
	}
	net := conductances{n: n, between: make([]float64, n*n), ground: make([]float64, n)}
	for band := range spectrum.N {
		net.fill(rooms, walls, band)
		net.eliminate()
		for from := range n {
			for at, v := range net.solve(from) {
				b.incident[at*n+from][band] = v
			}
		}
	}
	return b, coupled
}

// Incident is the intensity on the walls of room at for a sound power of 1 W in room from, 1/m2.
func (b Balance) Incident(from, at int) spectrum.Bands { return b.incident[at*b.rooms+from] }

// conductances are the balance in one band.
type conductances struct {
	n       int
	between []float64 // m2, conductance between two rooms
	ground  []float64 // m2, absorbed or let out
}

func (w *conductances) fill(rooms []Room, walls []Joint, band int) {
	clear(w.between)
	for i := range rooms {
		w.ground[i] = rooms[i].Absorption[band]
	}
	for i := range walls {
		switch a, b := walls[i].Rooms[0], walls[i].Rooms[1]; {
		case a == b:
		case a == Sink:
			w.ground[b] += walls[i].Through[band]
		case b == Sink:
			w.ground[a] += walls[i].Through[band]
		default:
			w.between[a*w.n+b] += walls[i].Through[band]
			w.between[b*w.n+a] += walls[i].Through[band]
		}
	}
}

// row is the conductances of room k to those before it.
func (w *conductances) row(k int) []float64 { return w.between[k*w.n : k*w.n+k] }

// total is all that leaves room k for ground and for the rooms before it.
func (w *conductances) total(k int) float64 {
	sum := w.ground[k]
	for _, c := range w.row(k) {
		sum += c
	}
	return sum
}

// eliminate takes out the rooms from the last on: what went by way of one goes between the others.
func (w *conductances) eliminate() {
	for k := w.n - 1; k > 0; k-- {
		row, all := w.row(k), w.total(k)
		for i, c := range row {
			w.ground[i] += c / all * w.ground[k]
			for j, d := range row {
				if i != j {
					w.between[i*w.n+j] += c / all * d
				}
			}
		}
	}
}

// solve gives the intensities in all rooms for 1 W in one of them.
func (w *conductances) solve(from int) []float64 {
	v := make([]float64, w.n)
	v[from] = 1
	for k := w.n - 1; k > 0; k-- {
		share := v[k] / w.total(k)
		for i, c := range w.row(k) {
			v[i] += c * share
		}
	}
	for k := range v {
		for j, c := range w.row(k) {
			v[k] += c * v[j]
		}
		v[k] /= w.total(k)
	}
	return v
}
