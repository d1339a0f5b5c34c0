package geom

// Rect is the closed area Min..Max. It is empty when Max is left of or above
// Min; the zero Rect is the single point 0,0 (use [EmptyRect] to start a union).
type Rect struct{ Min, Max Point }

// EmptyRect contains nothing and is the neutral element of Union.
func EmptyRect() Rect {
	return Rect{Point{MaxCoord * 2, MaxCoord * 2}, Point{-MaxCoord * 2, -MaxCoord * 2}}
}

// RectOf returns the smallest rectangle that holds all points.
func RectOf(pts ...Point) Rect {
	r := EmptyRect()
	for _, p := range pts {
		r = r.Extend(p)
	}
	return r
}

func (r Rect) Empty() bool      { return r.Min.X > r.Max.X || r.Min.Y > r.Max.Y }
func (r Rect) Width() int       { return r.Max.X - r.Min.X }
func (r Rect) Height() int      { return r.Max.Y - r.Min.Y }
func (r Rect) Center() Point    { return Point{(r.Min.X + r.Max.X) / 2, (r.Min.Y + r.Max.Y) / 2} }
func (r Rect) Add(v Point) Rect { return Rect{r.Min.Add(v), r.Max.Add(v)} }

// Extend returns the rectangle grown to hold p.
func (r Rect) Extend(p Point) Rect {
	return Rect{
		Point{min(r.Min.X, p.X), min(r.Min.Y, p.Y)},
		Point{max(r.Max.X, p.X), max(r.Max.Y, p.Y)},
	}
}

// Union returns the smallest rectangle that holds both.
func (r Rect) Union(s Rect) Rect {
	if s.Empty() {
		return r
	}
	if r.Empty() {
		return s
	}
	return r.Extend(s.Min).Extend(s.Max)
}

// Grow returns the rectangle with every side moved outwards by d units.
func (r Rect) Grow(d int) Rect {
	return Rect{Point{r.Min.X - d, r.Min.Y - d}, Point{r.Max.X + d, r.Max.Y + d}}
}

// Contains reports whether p lies inside or on the edge.
func (r Rect) Contains(p Point) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Encloses reports whether s lies wholly inside r.
func (r Rect) Encloses(s Rect) bool { return !s.Empty() && r.Contains(s.Min) && r.Contains(s.Max) }

// Touches reports whether the two areas share a point.
func (r Rect) Touches(s Rect) bool {
	return !r.Empty() && !s.Empty() &&
		r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}
