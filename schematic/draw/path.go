package draw

import "math"

// toward returns the point a share t of the way from p to q.
func toward(p, q Point, t float64) Point {
	return Point{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t}
}

// emptyBox contains nothing and is the neutral element of a union.
func emptyBox() Box {
	return Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
}

// Empty reports whether the box contains no point.
func (b Box) Empty() bool { return !(b.Min.X <= b.Max.X && b.Min.Y <= b.Max.Y) }

// Touches reports whether the two closed areas share a point.
func (b Box) Touches(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Encloses reports whether c, which must not be empty, lies wholly inside b.
func (b Box) Encloses(c Box) bool {
	return b.Min.X <= c.Min.X && c.Max.X <= b.Max.X && b.Min.Y <= c.Min.Y && c.Max.Y <= b.Max.Y
}

// Grow returns the box with every side moved outwards by d mm.
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

func (b Box) extend(p Point) Box {
	return Box{
		Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)},
		Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)},
	}
}

// Union returns the smallest box that holds both.
func (b Box) Union(c Box) Box {
	if b.Empty() {
		return c
	}
	if c.Empty() {
		return b
	}
	return b.extend(c.Min).extend(c.Max)
}

// pathBox returns the box of a path. Control points of curves count, so the
// box may be a little larger than the curve.
func pathBox(path []Seg) Box {
	b := emptyBox()
	for _, s := range path {
		switch s.Verb {
		case CubeTo:
			b = b.extend(s.C1).extend(s.C2).extend(s.P)
		case MoveTo, LineTo:
			b = b.extend(s.P)
		}
	}
	return b
}
