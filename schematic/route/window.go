package route

import (
	"slices"

	"loomwright/schematic/geom"
)

// window is a piece of the sheet laid out in tracks: the lines of the grid,
// those of the two tips, and those of wires that lie off the grid. It holds
// what it costs to go along each piece of a track and to pass each crossing.
type window struct {
	area   geom.Rect
	xs, ys []int
	nx, ny int

	// Per crossing: what the piece right of it and the piece below it cost more
	// per unit, and what passing straight on (level, upright) or bending costs.
	right, down        []uint16
	level, upright, at []uint16
	off                []int // coordinates off the grid, for xs and ys in turn
}

// blocked says that there is no way, or, in a soft search, hardly one.
const blocked = 1<<16 - 1

// mostCrossings bounds the window: larger ones have only every second, fourth …
// line of the grid.
const mostCrossings = 1 << 18

func (s *search) lay(b *Board, area geom.Rect, a, z Tip) {
	s.area = area
	s.tracks(b, a, z)
	n := s.nx * s.ny
	for _, m := range []*[]uint16{&s.right, &s.down, &s.level, &s.upright, &s.at} {
		if cap(*m) < n {
			*m = make([]uint16, n)
		}
		*m = (*m)[:n]
		clear(*m)
	}
	b.each(area.Grow(geom.Grid), func(t *thing) { s.enter(t, a, z) })
}

// tracks chooses the lines of the window.
func (s *search) tracks(b *Board, a, z Tip) {
	w, h := s.area.Width()/geom.Grid+3, s.area.Height()/geom.Grid+3
	step := geom.Grid
	for w*h > mostCrossings {
		step, w, h = 2*step, (w+1)/2, (h+1)/2
	}
	s.off = append(s.off[:0], a.At.X, a.At.Y, z.At.X, z.At.Y)
	b.each(s.area, func(t *thing) {
		if t.sort == strand && len(s.off) < 256 {
			s.off = append(s.off, t.area.Min.X, t.area.Min.Y, t.area.Max.X, t.area.Max.Y)
		}
	})
	s.xs = lines(s.xs[:0], s.area.Min.X, s.area.Max.X, step, s.off)
	s.ys = lines(s.ys[:0], s.area.Min.Y, s.area.Max.Y, step, s.off[1:])
	s.nx, s.ny = len(s.xs), len(s.ys)
}

// lines are the multiples of step from lo to hi and every second of more that
// lies between, in order.
func lines(out []int, lo, hi, step int, more []int) []int {
	first := lo - lo%step
	if first < lo {
		first += step
	}
	for v := first; v <= hi; v += step {
		out = append(out, v)
	}
	n := len(out)
	for i := 0; i < len(more); i += 2 {
		v := more[i]
		if v < lo || v > hi || v%step == 0 && v >= first {
			continue
		}
		if i >= 4 && v%geom.Grid == 0 {
			continue // a wire on the grid, which a coarse window passes over
		}
		out = append(out, v)
	}
	if len(out) > n {
		slices.Sort(out)
		out = slices.Compact(out)
	}
	return out
}

// from returns the index of the first line at or beyond v.
func from(lines []int, v int) int {
	i, _ := slices.BinarySearch(lines, v)
	return i
}

// to returns the index of the last line at or before v, or -1.
func to(lines []int, v int) int {
	i, exact := slices.BinarySearch(lines, v)
	if exact {
		return i
	}
	return i - 1
}

func (s *search) crossing(p geom.Point) int { return from(s.ys, p.Y)*s.nx + from(s.xs, p.X) }
func (s *search) point(n int) geom.Point    { return geom.Pt(s.xs[n%s.nx], s.ys[n/s.nx]) }

// back returns the crossing that lies against direction d.
func (s *search) back(n int, d uint8) int { return n - [4]int{1, s.nx, -1, -s.nx}[d] }

// edge returns the next crossing in direction d and what it costs to get
// there, or -1.
func (s *search) edge(n int, d uint8) (next, cost int) {
	var more uint16
	var long int
	x, y := n%s.nx, n/s.nx
	switch d {
	case 0:
		if x+1 >= s.nx {
			return -1, 0
		}
		next, more, long = n+1, s.right[n], s.xs[x+1]-s.xs[x]
	case 1:
		if y+1 >= s.ny {
			return -1, 0
		}
		next, more, long = n+s.nx, s.down[n], s.ys[y+1]-s.ys[y]
	case 2:
		if x == 0 {
			return -1, 0
		}
		next, more, long = n-1, s.right[n-1], s.xs[x]-s.xs[x-1]
	default:
		if y == 0 {
			return -1, 0
		}
		next, more, long = n-s.nx, s.down[n-s.nx], s.ys[y]-s.ys[y-1]
	}
	if more == blocked {
		if !s.soft {
			return next, -1
		}
		more = through
	}
	return next, long * (perUnit + int(more))
}

// pass returns what it costs to go straight on through a crossing and to bend
// there; -1 is not at all.
func (s *search) pass(n int, d uint8) (straight, bent int) {
	m := s.level[n]
	if d&1 == 1 {
		m = s.upright[n]
	}
	return s.toll(m), s.toll(s.at[n])
}

func (s *search) toll(m uint16) int {
	if m != blocked {
		return int(m) * tollUnit
	}
	if s.soft {
		return throughPin
	}
	return -1
}

// tollUnit is the unit of what crossings cost: two corners fit sixteen bits.
const tollUnit = 2 * geom.Grid

func more(m *uint16, v int) {
	if *m != blocked {
		*m = uint16(min(int(*m)+v, blocked-1))
	}
}

// enter notes what a thing costs where.
func (s *search) enter(t *thing, a, z Tip) {
	switch t.sort {
	case body:
		solid := t.area.Grow(clearance)
		own := solid.Contains(a.At) || solid.Contains(z.At)
		s.pieces(solid, func(m *uint16, p, q geom.Point) {
			if own && (onWayOut(p, q, solid, a) || onWayOut(p, q, solid, z)) {
				return
			}
			*m = blocked
		})
		s.besides(t.area, nearPart)
	case pin:
		if t.at == a.At || t.at == z.At {
			return
		}
		s.pieces(t.area, func(m *uint16, _, _ geom.Point) { *m = blocked })
	case text:
		s.pieces(t.area, func(m *uint16, _, _ geom.Point) { more(m, onText) })
	case outside:
		s.pieces(t.area, func(m *uint16, _, _ geom.Point) { more(m, beyond) })
	case strand:
		s.enterStrand(t, a, z)
	case corner:
		toll := cornerCost / tollUnit
		if t.meets(a, z) {
			toll = friendTouch / tollUnit
		}
		s.enterPoint(t.area.Min, toll, toll)
	case mouth:
		if t.at == a.At || t.at == z.At {
			s.enterPoint(t.area.Min, 0, stubBend/tollUnit)
		} else {
			s.enterPoint(t.area.Min, mouthCost/tollUnit, mouthBend/tollUnit)
		}
	}
}

// enterPoint adds what a place costs to pass and to bend at.
func (s *search) enterPoint(q geom.Point, pass, bend int) {
	x, y := to(s.xs, q.X), to(s.ys, q.Y)
	if x < 0 || y < 0 || s.xs[x] != q.X || s.ys[y] != q.Y {
		return
	}
	n := y*s.nx + x
	more(&s.level[n], pass)
	more(&s.upright[n], pass)
	more(&s.at[n], bend)
}

// onWayOut reports whether the piece from p to q belongs to the way out of the
// body that a tip's pin lies in.
func onWayOut(p, q geom.Point, area geom.Rect, tip Tip) bool {
	if !area.Contains(tip.At) || !geom.InLine(p, q, tip.At) {
		return false
	}
	far := p
	if span(q, tip.At) > span(p, tip.At) {
		far = q
	}
	return tip.Dir == geom.NoDir || geom.DirOf(far.Sub(tip.At)) == tip.Dir
}

// pieces calls f for every piece of a track that touches an area.
func (s *search) pieces(r geom.Rect, f func(m *uint16, p, q geom.Point)) {
	x0, x1, y0, y1 := from(s.xs, r.Min.X), to(s.xs, r.Max.X), from(s.ys, r.Min.Y), to(s.ys, r.Max.Y)
	for y := y0; y <= y1; y++ {
		for x := max(0, x0-1); x <= min(x1, s.nx-2); x++ {
			f(&s.right[y*s.nx+x], geom.Pt(s.xs[x], s.ys[y]), geom.Pt(s.xs[x+1], s.ys[y]))
		}
	}
	for y := max(0, y0-1); y <= min(y1, s.ny-2); y++ {
		for x := x0; x <= x1; x++ {
			f(&s.down[y*s.nx+x], geom.Pt(s.xs[x], s.ys[y]), geom.Pt(s.xs[x], s.ys[y+1]))
		}
	}
}

// along adds to the pieces of tracks that lie level between two places.
func (s *search) along(level bool, lo, hi, across0, across1, cost int) {
	if level {
		x0, x1 := from(s.xs, lo), to(s.xs, hi)
		for y := from(s.ys, across0); y <= to(s.ys, across1); y++ {
			for x := x0; x < x1; x++ {
				more(&s.right[y*s.nx+x], cost)
			}
		}
		return
	}
	y0, y1 := from(s.ys, lo), to(s.ys, hi)
	for x := from(s.xs, across0); x <= to(s.xs, across1); x++ {
		for y := y0; y < y1; y++ {
			more(&s.down[y*s.nx+x], cost)
		}
	}
}

// besides adds to the pieces that run within a grid step beside an area.
func (s *search) besides(r geom.Rect, cost int) {
	s.along(true, r.Min.X, r.Max.X, r.Min.Y-geom.Grid, r.Min.Y-1, cost)
	s.along(true, r.Min.X, r.Max.X, r.Max.Y+1, r.Max.Y+geom.Grid, cost)
	s.along(false, r.Min.Y, r.Max.Y, r.Min.X-geom.Grid, r.Min.X-1, cost)
	s.along(false, r.Min.Y, r.Max.Y, r.Max.X+1, r.Max.X+geom.Grid, cost)
}

func (s *search) enterStrand(t *thing, a, z Tip) {
	r := t.area
	if r.Min == r.Max {
		return
	}
	over, cross, touch := onWire, crossCost/tollUnit, cornerCost/tollUnit
	if t.meets(a, z) {
		over, cross, touch = onFriend, friendCross/tollUnit, friendTouch/tollUnit
	}
	if r.Min.Y == r.Max.Y {
		s.along(true, r.Min.X, r.Max.X, r.Min.Y, r.Min.Y, over)
		s.along(true, r.Min.X, r.Max.X, r.Min.Y-geom.Grid, r.Min.Y-1, nearWire)
		s.along(true, r.Min.X, r.Max.X, r.Min.Y+1, r.Min.Y+geom.Grid, nearWire)
		y := to(s.ys, r.Min.Y)
		if y < 0 || s.ys[y] != r.Min.Y {
			return
		}
		for x := from(s.xs, r.Min.X+1); x <= to(s.xs, r.Max.X-1); x++ {
			n := y*s.nx + x
			more(&s.upright[n], cross)
			more(&s.at[n], touch)
		}
		return
	}
	s.along(false, r.Min.Y, r.Max.Y, r.Min.X, r.Min.X, over)
	s.along(false, r.Min.Y, r.Max.Y, r.Min.X-geom.Grid, r.Min.X-1, nearWire)
	s.along(false, r.Min.Y, r.Max.Y, r.Min.X+1, r.Min.X+geom.Grid, nearWire)
	x := to(s.xs, r.Min.X)
	if x < 0 || s.xs[x] != r.Min.X {
		return
	}
	for y := from(s.ys, r.Min.Y+1); y <= to(s.ys, r.Max.Y-1); y++ {
		n := y*s.nx + x
		more(&s.level[n], cross)
		more(&s.at[n], touch)
	}
}
