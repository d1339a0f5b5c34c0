package check

import (
	"math"
	"slices"
)

// fed is how much current can flow into a zone for good.
type fed struct {
	amp     float64 // A; +Inf where nothing limits it, 0 where nothing feeds it
	by      []int   // branches that limit it
	unknown []int   // branches without a rating that would, were it known
}

// unfused reports whether a source feeds the zone with nothing between.
func (f fed) unfused() bool { return math.IsInf(f.amp, 1) && len(f.unknown) == 0 }

// feed returns what can come into a zone by any link.
func (z *zones) feed(zone int) fed {
	f, ok := z.whole[zone]
	if !ok {
		f = z.feedBy(zone, func(int) bool { return true })
		if z.whole == nil {
			z.whole = map[int]fed{}
		}
		z.whole[zone] = f
	}
	return f
}

// feedBy returns what can come into a zone by some of its own links: the
// largest flow from the sources with every link as wide as its rating (Edmonds
// and Karp 1972), which the narrowest set of fuses limits.
func (z *zones) feedBy(zone int, by func(link int) bool) fed {
	if z.live[zone] {
		return fed{amp: math.Inf(1)}
	}
	s := z.search(zone, by)
	wide := func(known bool) func(i, from int) float64 {
		return func(i, from int) float64 {
			l := &z.links[i]
			if math.IsInf(l.amp, 1) && (l.known || !known) && !(l.oneWay && from == l.to) {
				return 1
			}
			return 0
		}
	}
	if _, ok := s.path(wide(true)); ok {
		return fed{amp: math.Inf(1)}
	}
	if path, ok := s.path(wide(false)); ok {
		f := fed{amp: math.Inf(1)}
		for _, i := range path {
			if !z.links[i].known {
				f.unknown = append(f.unknown, z.links[i].branch)
			}
		}
		return f
	}
	var f fed
	for {
		path, ok := s.path(s.room)
		if !ok {
			break
		}
		f.amp += s.push(path)
	}
	if f.amp > 0 {
		f.by = s.cut()
	}
	return f
}

// search looks for ways from the sources to one zone.
type search struct {
	z    *zones
	sink int
	by   func(link int) bool
	flow []float64 // by link, positive from → to
	came []int     // zone → link by which the search, going upstream, came to it
	seen []int     // zone → the last search that came to it
	turn int       // number of the search
	todo []int
}

// search begins a search with nothing flowing. There is one at a time: it takes
// the memory of the one before.
func (z *zones) search(sink int, by func(link int) bool) *search {
	if z.last == nil {
		z.last = &search{z: z, flow: make([]float64, len(z.links)), came: make([]int, len(z.live)), seen: make([]int, len(z.live))}
	}
	clear(z.last.flow)
	z.last.sink, z.last.by = sink, by
	return z.last
}

// room is what a link still lets through out of the zone from.
func (s *search) room(i, from int) float64 {
	l := &s.z.links[i]
	switch {
	case from == l.from:
		return l.amp - s.flow[i]
	case l.oneWay:
		return s.flow[i]
	}
	return l.amp + s.flow[i]
}

// path goes from the sink upstream by links with room and returns those on the
// shortest way to a source, the sink's own first.
func (s *search) path(room func(link, from int) float64) ([]int, bool) {
	z := s.z
	s.turn++
	s.seen[s.sink] = s.turn
	s.todo = append(s.todo[:0], s.sink)
	for next := 0; next < len(s.todo); next++ {
		to := s.todo[next]
		if z.live[to] {
			var path []int
			for to != s.sink {
				i := s.came[to]
				path = append(path, i)
				to = z.links[i].far(to)
			}
			slices.Reverse(path)
			return path, true
		}
		for _, i := range z.at[to] {
			from := z.links[i].far(to)
			if s.seen[from] == s.turn || to == s.sink && !s.by(i) || room(i, from) <= 0 {
				continue
			}
			s.seen[from], s.came[from] = s.turn, i
			s.todo = append(s.todo, from)
		}
	}
	return nil, false
}

// push sends as much as fits along a path and returns it.
func (s *search) push(path []int) float64 {
	walk := func(f func(i, from int)) {
		to := s.sink
		for _, i := range path {
			from := s.z.links[i].far(to)
			f(i, from)
			to = from
		}
	}
	most := math.Inf(1)
	walk(func(i, from int) { most = math.Min(most, s.room(i, from)) })
	walk(func(i, from int) {
		if from == s.z.links[i].from {
			s.flow[i] += most
		} else {
			s.flow[i] -= most
		}
	})
	return most
}

// cut returns the branches at the edge of what the last search could reach.
func (s *search) cut() []int {
	var out []int
	for i := range s.z.links {
		l := &s.z.links[i]
		if (s.seen[l.from] == s.turn) != (s.seen[l.to] == s.turn) && s.flow[i] != 0 {
			out = append(out, l.branch)
		}
	}
	return out
}

// far returns the zone at the other end of a link.
func (l *link) far(zone int) int {
	if l.from == zone {
		return l.to
	}
	return l.from
}
