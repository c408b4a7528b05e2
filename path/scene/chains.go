package scene

// chainsOf are the shortest ways of spaces by shared partitions; where there is none, by spaces that touch
// as well; else two spaces on are taken and known is false.
func (s *scene) chainsOf(from, to string) (ways [][]string, known bool) {
	if from == to {
		return [][]string{{from}}, true
	}
	if ways = s.shortest(from, to, s.walled); ways == nil {
		ways = s.shortest(from, to, func(a, b string) bool { return s.walled(a, b) || s.touch(a, b) })
	}
	if ways == nil {
		return [][]string{{from, "a space between", to}}, false
	}
	return ways, true
}

// shortest finds all ways over the fewest spaces aboard.
func (s *scene) shortest(from, to string, joined func(a, b string) bool) (ways [][]string) {
	far, seen := [][]string{{from}}, map[string]bool{from: true}
	for len(far) > 0 && ways == nil {
		var next [][]string
		for _, way := range far {
			for i := range s.layout.Spaces {
				name := s.layout.Spaces[i].Name
				if seen[name] || !joined(way[len(way)-1], name) {
					continue
				}
				longer := append(way[:len(way):len(way)], name)
				if next = append(next, longer); name == to {
					ways = append(ways, longer)
				}
			}
		}
		for _, way := range next {
			seen[way[len(way)-1]] = true
		}
		far = next
	}
	return ways
}

// walled tells whether the file states a wall between two spaces: one that was only filled in tells no way.
func (s *scene) walled(a, b string) bool {
	for i := range s.walls {
		if far, ok := s.walls[i].Other(a); ok && far == b && s.walls[i].Usual == nil {
			return true
		}
	}
	return false
}

// touching is how far apart spaces may stand and still share structure, m (judgement: frames, linings).
const touching = 0.3

func (s *scene) touch(a, b string) bool {
	p, ok := s.layout.Space(a)
	q, also := s.layout.Space(b)
	if !ok || !also || !p.AtStated || !q.AtStated {
		return false
	}
	for i := range p.At {
		if p.At[i] > q.At[i]+q.Size[i]+touching || q.At[i] > p.At[i]+p.Size[i]+touching {
			return false
		}
	}
	return true
}
