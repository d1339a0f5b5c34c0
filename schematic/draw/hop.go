package draw

import (
	"cmp"
	"math"
	"slices"

	"loomwright/schematic/geom"
)

// A level wire hops over the upright ones it crosses without touching, so that
// a crossing is never taken for a joint.
const minHop = 1.0 // mm, radius

// hop is one little bridge on a segment of a wire.
type hop struct {
	seg    int // index of the segment's first point
	x      float64
	radius float64
}

// hops appends the bridges of line i, in path order.
func (b *build) hops(out []hop, i int) []hop {
	l := b.lines[i]
	for seg := 1; seg < len(l.path); seg++ {
		p, q := l.path[seg-1], l.path[seg]
		if p.Y != q.Y || p.X == q.X {
			continue
		}
		from := len(out)
		x0, x1 := min(p.X, q.X), max(p.X, q.X)
		strip := boxMM(geom.RectOf(p, q))
		b.room.each(strip, func(t *taken) bool {
			if t.owner < 0 || t.owner == int32(i) {
				return true
			}
			o := b.lines[t.owner]
			u, v := o.path[t.seg-1], o.path[t.seg]
			if u.X != v.X || u.X <= x0 || u.X >= x1 || p.Y <= min(u.Y, v.Y) || p.Y >= max(u.Y, v.Y) {
				return true
			}
			x, _ := u.MM()
			out = append(out, hop{seg - 1, x, max(minHop, o.width/2+rimWidth+0.5)})
			return true
		})
		out = append(out[:from], spaced(out[from:], p, q)...)
	}
	return out
}

// spaced sorts the hops of one segment along it and drops those that leave no
// room for an arc: too near an end or the hop before.
func spaced(hops []hop, p, q geom.Point) []hop {
	a, _ := p.MM()
	z, _ := q.MM()
	slices.SortFunc(hops, func(g, h hop) int {
		c := cmp.Compare(g.x, h.x)
		if a > z {
			c = -c
		}
		return cmp.Or(c, cmp.Compare(h.radius, g.radius))
	})
	kept := hops[:0]
	for _, h := range hops {
		if math.Abs(h.x-a) < h.radius+0.2 || math.Abs(h.x-z) < h.radius+0.2 {
			continue
		}
		if n := len(kept); n > 0 && math.Abs(h.x-kept[n-1].x) < h.radius+kept[n-1].radius+0.1 {
			continue
		}
		kept = append(kept, h)
	}
	return kept
}

// hopPath returns the path of a wire with its bridges, bulging upwards.
func hopPath(path geom.Path, hops []hop) []Seg {
	out := make([]Seg, 0, len(path)+3*len(hops))
	for i, p := range path {
		if i == 0 {
			out = append(out, Seg{Verb: MoveTo, P: mm(p)})
			continue
		}
		dir := 1.0
		if p.X < path[i-1].X {
			dir = -1
		}
		for len(hops) > 0 && hops[0].seg == i-1 {
			h := hops[0]
			hops = hops[1:]
			c, r := Point{h.x, mm(p).Y}, h.radius
			k := kappa * r
			out = append(out,
				Seg{Verb: LineTo, P: c.add(-dir*r, 0)},
				Seg{Verb: CubeTo, C1: c.add(-dir*r, -k), C2: c.add(-dir*k, -r), P: c.add(0, -r)},
				Seg{Verb: CubeTo, C1: c.add(dir*k, -r), C2: c.add(dir*r, -k), P: c.add(dir*r, 0)})
		}
		out = append(out, Seg{Verb: LineTo, P: mm(p)})
	}
	return out
}
