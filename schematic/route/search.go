package route

import (
	"slices"

	"loomwright/schematic/geom"
)

// search is one look for a way on a window of the sheet: A* over the crossings
// of level and upright tracks, one state for each crossing and way of coming
// there. Its memory is used again for the next way.
type search struct {
	window
	goal   int // crossing
	goalAt geom.Point
	goalIn geom.Dir // the way it must be come to, NoDir for any
	soft   bool     // what blocks only costs much
	hurry  int      // how much more than it costs the way ahead counts, in percent

	best  []int32 // lowest cost to a state so far; valid where stamp says so
	stamp []uint32
	came  []uint8 // the way of the state before: 0 to 3, or atStart
	round uint32

	queue queue
	steps int // states looked at, ever
}

const atStart = 4

const (
	// patience is how many states are looked at for the cheapest way. Beyond it
	// a way nearly as cheap serves, for which far fewer need a look.
	patience = 2000
	haste    = 150 // percent
	// mostSteps bounds one search, so that a hopeless one does not hold up the
	// window.
	mostSteps = 300_000
	// mostCost bounds the cost of a way: dearer ones, through heaps of things, are
	// none, so that costs fit 32 bits and the queue stays small.
	mostCost = 1 << 28
)

// search returns the cheapest path found from a to z, or nil. It looks in a
// window round both first and in larger ones as long as a way outside could
// be better.
func (b *Board) search(a, z Tip) geom.Path {
	all := b.bounds().Union(geom.RectOf(a.At, z.At).Grow(4 * geom.Grid))
	direct := geom.RectOf(a.At, z.At)
	s := b.plan.spare.Get().(*search)
	defer b.plan.spare.Put(s)
	before := s.steps
	defer func() { b.steps += s.steps - before }()
	for _, soft := range [2]bool{false, true} {
		s.soft = soft
		for margin := 8 * geom.Grid; ; margin *= 3 {
			area := common(direct.Grow(margin), all)
			s.lay(b, area, a, z)
			b.laid += s.nx * s.ny
			path, cost := s.run(a, z, 100, patience)
			if cost < 0 {
				path, cost = s.run(a, z, haste, mostSteps)
			}
			// A way that leaves the window comes back, over two bends at least.
			out := perUnit*(span(a.At, z.At)+2*margin) + 2*bendCost
			if path != nil && cost <= out || area == all {
				if path == nil {
					break
				}
				return path
			}
			if path != nil && margin > 40*geom.Grid {
				return path
			}
		}
	}
	return nil
}

// The ways are numbered as [geom.Dir] less one: right, down, left, up.

// run searches the window. It returns no path where there is none, and a cost
// below zero where that took too many steps.
func (s *search) run(a, z Tip, hurry, most int) (geom.Path, int) {
	s.hurry = hurry
	n := s.nx * s.ny
	if len(s.best) < 4*n {
		s.best, s.stamp, s.came = make([]int32, 4*n), make([]uint32, 4*n), make([]uint8, 4*n)
		s.round = 0
	}
	s.round++
	s.queue.reset()
	s.goal, s.goalAt, s.goalIn = s.crossing(z.At), z.At, geom.NoDir
	if z.Dir != geom.NoDir {
		s.goalIn = geom.DirOf(z.Dir.Vec().Neg())
	}
	start := s.crossing(a.At)
	for d := range uint8(4) {
		cost := 0
		if p := leaving(geom.Dir(d+1), a.Dir); p.Cost > 0 {
			if !s.soft {
				continue
			}
			cost = p.Cost
		}
		s.step(start, d, atStart, cost)
	}
	for range most {
		state, f, ok := s.queue.pop()
		if !ok {
			return nil, 0
		}
		s.steps++
		at, d := int(state>>2), uint8(state&3)
		g := int(s.best[state])
		if at == s.goal {
			return s.trace(state), g
		}
		if f > g+s.still(at, d) {
			continue // a better way came later
		}
		straight, bent := s.pass(at, d)
		if straight >= 0 {
			s.step(at, d, d, g+straight)
		}
		if bent >= 0 {
			s.step(at, (d+1)&3, d, g+bendCost+bent)
			s.step(at, (d+3)&3, d, g+bendCost+bent)
		}
	}
	return nil, -1
}

// still is what a state's further way counts.
func (s *search) still(at int, d uint8) int { return s.ahead(at, d) * s.hurry / 100 }

// step goes on from a crossing to the next one in direction d, at cost so far.
func (s *search) step(at int, d, came uint8, cost int) {
	next, price := s.edge(at, d)
	if next < 0 || price < 0 {
		return
	}
	cost += price
	if next == s.goal {
		if p := leaving(geom.Dir((d+2)&3+1), s.goalOut()); p.Cost > 0 {
			if !s.soft {
				return
			}
			cost += p.Cost
		}
	}
	if cost > mostCost {
		return
	}
	state := next<<2 | int(d)
	if s.stamp[state] == s.round && int(s.best[state]) <= cost {
		return
	}
	s.stamp[state], s.best[state], s.came[state] = s.round, int32(cost), came
	s.queue.push(state, cost+s.still(next, d))
}

// goalOut is the way the goal's pin faces.
func (s *search) goalOut() geom.Dir {
	if s.goalIn == geom.NoDir {
		return geom.NoDir
	}
	return geom.DirOf(s.goalIn.Vec().Neg())
}

// ahead is the least a way from a crossing, come to in direction d, still
// costs: the straight distance and the bends it takes at least.
func (s *search) ahead(at int, d uint8) int {
	x, y := s.xs[at%s.nx], s.ys[at/s.nx]
	dx, dy := s.goalAt.X-x, s.goalAt.Y-y
	cost := perUnit * (max(dx, -dx) + max(dy, -dy))
	if dx == 0 && dy == 0 {
		return cost
	}
	// along is the distance still to go the way it runs, across beside it.
	along, across := dx, dy
	switch d {
	case 1:
		along, across = dy, -dx
	case 2:
		along, across = -dx, -dy
	case 3:
		along, across = -dy, dx
	}
	bends := 0
	switch {
	case s.goalIn == geom.NoDir:
		switch {
		case across != 0 && along >= 0:
			bends = 1
		case along < 0:
			bends = 2
		}
	default:
		turn := (uint8(s.goalIn-1) - d) & 3 // from d to the way in
		switch turn {
		case 0:
			if across != 0 && along > 0 {
				bends = 2
			} else if across != 0 || along < 0 {
				bends = 4
			}
		case 2:
			if bends = 2; across == 0 {
				bends = 4
			}
		default:
			side := across
			if turn == 3 {
				side = -across
			}
			bends = 1
			if along < 0 || side <= 0 {
				bends = 3
			}
		}
	}
	return cost + bends*bendCost
}

// trace returns the path that led to a state.
func (s *search) trace(state int) geom.Path {
	var path geom.Path
	for {
		at, d := state>>2, uint8(state&3)
		path = append(path, s.point(at))
		came := s.came[state]
		at = s.back(at, d)
		if came == atStart {
			path = append(path, s.point(at))
			break
		}
		state = at<<2 | int(came)
	}
	slices.Reverse(path)
	return path.Clean()
}

// queue is a priority queue for whole numbers that seldom fall: lists by cost.
// Of equals the last in comes first, which leads straight ahead.
type queue struct {
	heads []int32
	items []queued
	low   int // no list below holds anything
	high  int // nor above
}

type queued struct {
	state, cost int32
	next        int32
}

// quantum is the unit costs are sorted by: those on the grid are multiples.
const quantum = geom.Grid

func (q *queue) reset() {
	for i := q.low; i <= q.high && i < len(q.heads); i++ {
		q.heads[i] = -1
	}
	q.items, q.low, q.high = q.items[:0], 1<<30, -1
}

func (q *queue) push(state, cost int) {
	i := cost / quantum
	for len(q.heads) <= i {
		q.heads = append(q.heads, -1)
	}
	q.items = append(q.items, queued{int32(state), int32(cost), q.heads[i]})
	q.heads[i] = int32(len(q.items) - 1)
	q.low, q.high = min(q.low, i), max(q.high, i)
}

func (q *queue) pop() (state, cost int, ok bool) {
	for ; q.low <= q.high; q.low++ {
		if i := q.heads[q.low]; i >= 0 {
			it := q.items[i]
			q.heads[q.low] = it.next
			return int(it.state), int(it.cost), true
		}
	}
	return 0, 0, false
}
