package route

import (
	"slices"

	"loomwright/schematic/geom"
)

// mostPushed bounds how far from the middle a place is looked for.
const mostPushed = 40 * geom.Grid

// settle pushes the inner stretches of a way, where that costs nothing, to the
// middle between their neighbours: of ways that cost the same a search finds any
// one, and wires led one after the other shall lie side by side.
func (b *Board) settle(f Found, a, z Tip) Found {
	for i := 1; i+2 < len(f.Path); i++ {
		p, q := f.Path[i-1], f.Path[i+2]
		level := f.Path[i].Y == f.Path[i+1].Y
		at, lo, hi := f.Path[i].X, p.X, q.X
		if level {
			at, lo, hi = f.Path[i].Y, p.Y, q.Y
		}
		if lo > hi {
			lo, hi = hi, lo
		}
		if at <= lo || at >= hi {
			continue // a loop, which is as narrow as it can be
		}
		want := geom.Pt((lo+hi)/2, 0).Snap(geom.Grid).X
		for d := 0; d < min(max(at-want, want-at), mostPushed); d += geom.Grid {
			if c, ok := b.pushed(f, i, level, want-d, want+d, a, z); ok {
				f = c
				break
			}
		}
	}
	return f
}

// pushed returns the way with stretch i at the first of two places where it
// costs no more.
func (b *Board) pushed(f Found, i int, level bool, one, two int, a, z Tip) (Found, bool) {
	for _, at := range [2]int{one, two} {
		path := slices.Clone(f.Path)
		if level {
			path[i].Y, path[i+1].Y = at, at
		} else {
			path[i].X, path[i+1].X = at, at
		}
		if p := b.Price(path, a, z); p.Faults <= f.Faults && p.Cost <= f.Cost && len(path.Clean()) == len(path) {
			return Found{path, p}, true
		}
	}
	return f, false
}
