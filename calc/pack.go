package calc

import (
	"fmt"
	"math"
)

// maxPacked bounds the work of packedDiameter, which grows with the cube of
// the count and takes some milliseconds for that many wires.
const maxPacked = 120

type circle struct{ x, y, r float64 }

// packedDiameter lays the wires, given thickest first, one after another where
// they touch two others nearest to the middle, and returns the diameter of the
// circle round them all. Any such arrangement is an upper bound.
func packedDiameter(d []float64) float64 {
	laid := make([]circle, 0, len(d))
	laid = append(laid, circle{0, 0, d[0] / 2}, circle{(d[0] + d[1]) / 2, 0, d[1] / 2})
	for _, v := range d[2:] {
		laid = append(laid, nearestPlace(laid, v/2))
	}
	return 2 * enclosingRadius(laid)
}

// nearestPlace finds the free place for a circle of radius r that touches two
// of the laid ones and lies nearest to their centre of gravity.
func nearestPlace(laid []circle, r float64) circle {
	var cx, cy, weight float64
	for _, c := range laid {
		w := c.r * c.r
		cx, cy, weight = cx+w*c.x, cy+w*c.y, weight+w
	}
	cx, cy = cx/weight, cy/weight
	best, bestDist := circle{}, math.Inf(1)
	for i, a := range laid {
		for _, b := range laid[i+1:] {
			dx, dy := b.x-a.x, b.y-a.y
			dist := math.Hypot(dx, dy)
			ra, rb := a.r+r, b.r+r
			if dist >= ra+rb || dist == 0 {
				continue
			}
			// Where the circles round a and b with the new centre on them meet.
			along := (dist*dist + ra*ra - rb*rb) / (2 * dist)
			across := math.Sqrt(math.Max(0, ra*ra-along*along))
			ux, uy := dx/dist, dy/dist
			for _, side := range [...]float64{1, -1} {
				p := circle{a.x + along*ux - side*across*uy, a.y + along*uy + side*across*ux, r}
				if v := math.Hypot(p.x-cx, p.y-cy); v < bestDist-1e-12 && free(laid, p) {
					best, bestDist = p, v
				}
			}
		}
	}
	if math.IsInf(bestDist, 1) {
		panic(fmt.Sprintf("calc: no place beside %d circles for one of radius %v", len(laid), r)) // the outermost pair always has one
	}
	return best
}

// free reports whether p overlaps none of the laid circles.
func free(laid []circle, p circle) bool {
	const slack = 1e-9
	for _, c := range laid {
		dx, dy, min := c.x-p.x, c.y-p.y, c.r+p.r
		if dx*dx+dy*dy < min*min*(1-slack) {
			return false
		}
	}
	return true
}

// enclosingRadius is the radius of the smallest circle round all, found by
// nested golden section: the reach from a point is convex in both directions.
func enclosingRadius(cs []circle) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range cs {
		lo = math.Min(lo, math.Min(c.x, c.y)-c.r)
		hi = math.Max(hi, math.Max(c.x, c.y)+c.r)
	}
	return least(lo, hi, func(x float64) float64 {
		return least(lo, hi, func(y float64) float64 {
			reach := 0.0
			for _, c := range cs {
				reach = math.Max(reach, math.Hypot(c.x-x, c.y-y)+c.r)
			}
			return reach
		})
	})
}

// least is the minimum of a convex function on [lo, hi], by golden section: 45
// steps narrow it to 4e-10 of its width.
func least(lo, hi float64, f func(float64) float64) float64 {
	const golden = 0.6180339887498949
	a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fa, fb := f(a), f(b)
	for range 45 {
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - golden*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + golden*(hi-lo)
			fb = f(b)
		}
	}
	return math.Min(fa, fb)
}
