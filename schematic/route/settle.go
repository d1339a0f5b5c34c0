package route

import (
	"slices"

	"loomwright/schematic/geom"
)

// mostPushed bounds how far from its place a stretch is looked for.
const mostPushed = 40 * geom.Grid

// longRow is how far along a row of pins others count.
const longRow = 64 * geom.Grid

// settle pushes the inner stretches of a way, where that costs nothing, to their
// place among the wires of the neighbour pins: of ways that cost the same a
// search finds any one, and wires led one after the other shall make a sheaf.
func (b *Board) settle(f Found, a, z Tip) Found {
	for i := 1; i+2 < len(f.Path); i++ {
		p, q := f.Path[i-1], f.Path[i+2]
		level := f.Path[i].Y == f.Path[i+1].Y
		at, lo, hi := f.Path[i].X, p.X, q.X
		if level {
			at, lo, hi = f.Path[i].Y, p.Y, q.Y
		}
		want, tight := 0, 0
		s := b.slot(f.Path, i, a, z)
		if lo < at && at < hi || hi < at && at < lo {
			want, tight = s.between(lo, hi)
			tight *= span(f.Path[i], f.Path[i+1])
		} else if want = s.beyond(at, lo, hi); want == at {
			continue // a loop, which is as narrow as it can be
		}
		for d := 0; d < min(max(at-want, want-at), mostPushed); d += geom.Grid {
			if c, ok := b.pushed(f, i, level, want-d, want+d, tight, a, z); ok {
				f = c
				break
			}
		}
	}
	return f
}

// pushed returns the way with stretch i at the first of two places where it
// costs no more than its length, and what it takes to be tight.
func (b *Board) pushed(f Found, i int, level bool, one, two, tight int, a, z Tip) (Found, bool) {
	for _, at := range [2]int{one, two} {
		path := slices.Clone(f.Path)
		if level {
			path[i].Y, path[i+1].Y = at, at
		} else {
			path[i].X, path[i+1].X = at, at
		}
		if len(path.Clean()) != len(path) {
			continue
		}
		p := b.Price(path, a, z)
		if p.Faults <= f.Faults && p.Crossings <= f.Crossings && p.Cost-bare(path) <= f.Extra()+tight {
			return Found{path, p}, true
		}
	}
	return f, false
}

// track is how far apart the wires of a sheaf lie, where there is room: labels
// fit between.
const track = 2 * geom.Grid

// slot is the place of a stretch among those of the pins beside its own, in a
// sheaf of them all: how many lie nearer to where the way comes from, and how
// many further on. Of a loop, near ones lie within it.
type slot struct {
	near, far int
	sure      bool // the pins at both ends say so
}

// slot foresees the wires of the pins beside those of the tips, whether they are
// drawn yet or not: so a sheaf drawn wire by wire in any order comes out as if
// it had been planned, and none crosses another.
func (b *Board) slot(path geom.Path, i int, a, z Tip) slot {
	v := path[i+1].Sub(path[i])
	ahead := v.X > 0 || v.Y > 0
	first, last := i == 1, i+3 == len(path)
	if geom.DirOf(path[i-1].Sub(path[i])) == geom.DirOf(path[i+2].Sub(path[i+1])) {
		if !first || !last {
			return slot{}
		}
		return slot{near: b.within(a, z, ahead)}
	}
	var at, to slot
	if first {
		at.near, at.far = b.row(a)
	}
	if last {
		to.near, to.far = b.row(z)
	}
	sure, none := true, slot{}
	if at == none {
		at, sure = to, false
	} else if to == none {
		to, sure = at, false
	}
	s := slot{min(at.near, to.near), min(at.far, to.far), sure}
	if ahead {
		s.near, s.far = s.far, s.near
	}
	return s
}

// within is how many wires may come to lie within a loop from one pin to another.
func (b *Board) within(a, z Tip, ahead bool) int {
	beforeA, afterA := b.row(a)
	beforeZ, afterZ := b.row(z)
	if !ahead {
		beforeA, afterA, beforeZ, afterZ = afterA, beforeA, afterZ, beforeZ
	}
	if a.Pin.Part == z.Pin.Part {
		return max(0, afterA-afterZ-1) / 2
	}
	return min(afterA, beforeZ)
}

// row counts the pins of a tip's part that face the way its pin does and stand
// in line with it: those before it, left or above, and those after it.
func (b *Board) row(t Tip) (before, after int) {
	if t.Dir == geom.NoDir || t.Pin.Part == (Tip{}).Pin.Part {
		return 0, 0
	}
	v := t.Dir.Vec()
	q := t.At.Add(geom.Pt(v.X*geom.Grid, v.Y*geom.Grid))
	line := geom.RectOf(q)
	if v.X != 0 {
		line.Min.Y, line.Max.Y = q.Y-longRow, q.Y+longRow
	} else {
		line.Min.X, line.Max.X = q.X-longRow, q.X+longRow
	}
	b.each(line, func(m *thing) {
		if m.sort != mouth || m.owner != t.Pin.Part || m.area.Min.Sub(m.at) != q.Sub(t.At) {
			return
		}
		switch d := m.area.Min.Sub(q); {
		case d.X < 0 || d.Y < 0:
			before++
		case d.X > 0 || d.Y > 0:
			after++
		}
	})
	return before, after
}

// between is the place between two lines, in the middle for a wire alone. Where
// a sheaf has no room, tight is what it costs, for a unit of length, that its
// wires lie closer.
func (s slot) between(lo, hi int) (want, tight int) {
	step, n := track, s.near+s.far
	if room := max(hi-lo, lo-hi) / (n + 2); n > 0 && room < track {
		step = room
		if s.sure {
			tight = 2 * nearWire
		}
	}
	off := (s.near - s.far) * step / 2
	if hi < lo {
		off = -off
	}
	return geom.Pt((lo+hi)/2+off, 0).Snap(geom.Grid).X, tight
}

// beyond is the place of a stretch that lies beyond both its neighbours.
func (s slot) beyond(at, lo, hi int) int {
	switch off := s.near * track; {
	case at > lo && at > hi:
		return at + off
	case at < lo && at < hi:
		return at - off
	}
	return at
}
