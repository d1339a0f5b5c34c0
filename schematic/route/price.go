package route

import (
	"loomwright/schematic/geom"
)

// Price says what a path between two tips costs on the board.
func (b *Board) Price(path geom.Path, a, z Tip) Price {
	p := Price{Cost: bare(path)}
	if len(path) < 2 || len(path) == 2 && path[0] == path[1] {
		return p
	}
	last := len(path) - 1
	p.add(leaving(geom.DirOf(path[1].Sub(path[0])), a.Dir))
	p.add(leaving(geom.DirOf(path[last-1].Sub(path[last])), z.Dir))
	for i := 1; i <= last; i++ {
		s := stretch{from: path[i-1], to: path[i], first: i == 1, last: i == last}
		s.area = geom.RectOf(s.from, s.to)
		b.each(s.area.Grow(geom.Grid), func(t *thing) { p.add(s.meet(t, a, z)) })
	}
	return p
}

func (p *Price) add(q Price) {
	p.Cost += q.Cost
	p.Faults += q.Faults
	p.Crossings += q.Crossings
}

func fault(cost int) Price { return Price{Cost: cost, Faults: 1} }
func extra(cost int) Price { return Price{Cost: cost} }

// leaving prices a first step against the way a pin faces.
func leaving(step, dir geom.Dir) Price {
	switch {
	case dir == geom.NoDir || step == dir || step == geom.NoDir:
		return Price{}
	case step.Vec() == dir.Vec().Neg():
		return fault(backwards)
	}
	return extra(aside)
}

// clearance is how far off a body a wire is through it all the same: drawn, the
// two would touch.
const clearance = geom.Grid / 3

// stretch is a straight piece of a way.
type stretch struct {
	from, to    geom.Point
	area        geom.Rect
	first, last bool
}

// meet prices what one thing does to a stretch.
func (s *stretch) meet(t *thing, a, z Tip) Price {
	switch t.sort {
	case body:
		if hit := common(s.area, t.area.Grow(clearance)); !hit.Empty() && !s.exempt(hit, t, a, z) {
			return fault(through * max(geom.Grid, size(hit)))
		}
		return extra(nearPart * s.beside(t.area))
	case pin:
		if t.at != a.At && t.at != z.At && s.area.Touches(t.area) {
			return fault(throughPin)
		}
	case text:
		if hit := common(s.area, t.area); !hit.Empty() {
			return extra(onText * size(hit))
		}
	case outside:
		if hit := common(s.area, t.area); !hit.Empty() {
			return extra(beyond * size(hit))
		}
	case strand:
		return s.meetStrand(t, a, z)
	case corner:
		return s.meetCorner(t, a, z)
	case mouth:
		q := t.area.Min
		switch {
		case q == a.At || q == z.At || !s.area.Contains(q) || q == s.from:
		case t.at == a.At || t.at == z.At:
			if q == s.to {
				return extra(stubBend)
			}
		case q == s.to:
			return extra(mouthBend)
		default:
			return extra(mouthCost)
		}
	}
	return Price{}
}

// exempt reports whether the piece of a stretch that lies in a body is the way
// out of the body that an end's own pin lies in.
func (s *stretch) exempt(hit geom.Rect, t *thing, a, z Tip) bool {
	return s.first && wayOut(hit, s.to, t, a) || s.last && wayOut(hit, s.from, t, z)
}

func wayOut(hit geom.Rect, far geom.Point, t *thing, tip Tip) bool {
	if !t.area.Grow(clearance).Contains(tip.At) || !hit.Contains(tip.At) {
		return false
	}
	dir := geom.DirOf(far.Sub(tip.At))
	return tip.Dir == geom.NoDir || tip.Dir == dir
}

func (s *stretch) meetStrand(t *thing, a, z Tip) Price {
	level, other := s.area.Min.Y == s.area.Max.Y, t.area.Min.Y == t.area.Max.Y
	point := t.area.Min == t.area.Max
	if s.area.Min == s.area.Max || point {
		return Price{}
	}
	friend := t.meets(a, z)
	if level == other {
		hit := common(s.area, t.area)
		switch {
		case hit.Empty():
			return extra(nearWire * s.beside(t.area))
		case size(hit) == 0:
			return Price{}
		case friend:
			return extra(onFriend * size(hit))
		}
		return fault(onWire * size(hit))
	}
	hit := common(s.area, t.area)
	if hit.Empty() {
		return Price{}
	}
	q := hit.Min
	inner := q != t.area.Min && q != t.area.Max
	switch {
	case !inner:
		return Price{} // its corner, or the pin it ends at, says it
	case q != s.from && q != s.to && friend:
		return extra(friendCross)
	case q != s.from && q != s.to:
		return Price{Cost: crossCost, Crossings: 1}
	case q == s.to && s.last || q == s.from && s.first:
		return Price{} // ends on it
	case q == s.from:
		return Price{} // the stretch before has said it
	case friend:
		return extra(friendTouch)
	}
	return fault(cornerCost)
}

func (s *stretch) meetCorner(t *thing, a, z Tip) Price {
	q := t.area.Min
	if !s.area.Contains(q) || q == a.At || q == z.At || q == s.from && !s.first {
		return Price{}
	}
	if t.meets(a, z) {
		return extra(friendTouch)
	}
	return fault(cornerCost)
}

// beside is the length of a stretch that runs within a grid step of an area
// without touching it.
func (s *stretch) beside(area geom.Rect) int {
	if s.area.Touches(area) {
		return 0
	}
	near := area.Grow(geom.Grid)
	if s.area.Min.Y == s.area.Max.Y {
		near.Min.X, near.Max.X = area.Min.X, area.Max.X
	} else {
		near.Min.Y, near.Max.Y = area.Min.Y, area.Max.Y
	}
	if hit := common(s.area, near); !hit.Empty() {
		return size(hit)
	}
	return 0
}

// common is what two areas share.
func common(a, b geom.Rect) geom.Rect {
	return geom.Rect{
		Min: geom.Pt(max(a.Min.X, b.Min.X), max(a.Min.Y, b.Min.Y)),
		Max: geom.Pt(min(a.Max.X, b.Max.X), min(a.Max.Y, b.Max.Y)),
	}
}

// size is the longer side of an area.
func size(r geom.Rect) int { return max(r.Width(), r.Height()) }
