package export

import "math"

// snap moves a coordinate to the centre of its pixel; the small bias keeps
// rounding noise from deciding at the pixel edge, where grid points often lie.
func snap(v float64) float64 { return math.Floor(v+0.01) + 0.5 }

func snapped(p pt) pt { return pt{snap(p.x), snap(p.y)} }

// snapKnots moves the ends of horizontal and vertical pieces to pixel centres,
// curves follow at the ends they share. A path of curves alone moves as a
// whole, so that circles stay round. Slanted lines stay where they are.
func snapKnots(knots []knot, closed bool) {
	n := len(knots)
	if n == 1 {
		knots[0].p = snapped(knots[0].p)
		return
	}
	straight := func(i int) bool { // is the piece that ends in knot i
		p, q := knots[i-1].p, knots[i].p
		return !knots[i].curve && (math.Abs(p.x-q.x) < 0.01 || math.Abs(p.y-q.y) < 0.01)
	}
	anyStraight, anyLine := false, false
	for i := 1; i < n; i++ {
		anyStraight = anyStraight || straight(i)
		anyLine = anyLine || !knots[i].curve && knots[i].p != knots[i-1].p
	}
	if !anyLine {
		snapWhole(knots)
		return
	}
	if !anyStraight {
		return
	}
	first := straight(1)
	before := closed && straight(n-1)
	for i := range knots {
		after := closed && first // of the last knot, which is the first again
		if i+1 < n {
			after = straight(i + 1) // asked before this knot moves
		}
		if before || after {
			moveKnot(knots, i, snapped(knots[i].p))
		}
		before = after
	}
}

// moveKnot moves a knot and with it the control points next to it.
func moveKnot(knots []knot, i int, to pt) {
	dx, dy := to.x-knots[i].p.x, to.y-knots[i].p.y
	knots[i].p = to
	knots[i].c2.x += dx
	knots[i].c2.y += dy
	if i+1 < len(knots) {
		knots[i+1].c1.x += dx
		knots[i+1].c1.y += dy
	}
}

func snapWhole(knots []knot) {
	lo, hi := knots[0].p, knots[0].p
	for _, k := range knots[1:] {
		lo = pt{min(lo.x, k.p.x), min(lo.y, k.p.y)}
		hi = pt{max(hi.x, k.p.x), max(hi.y, k.p.y)}
	}
	cx, cy := (lo.x+hi.x)/2, (lo.y+hi.y)/2
	dx, dy := snap(cx)-cx, snap(cy)-cy
	for i := range knots {
		k := &knots[i]
		k.p, k.c1, k.c2 = pt{k.p.x + dx, k.p.y + dy}, pt{k.c1.x + dx, k.c1.y + dy}, pt{k.c2.x + dx, k.c2.y + dy}
	}
}
