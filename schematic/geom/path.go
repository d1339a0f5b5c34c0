package geom

import "math"

// Path is a polyline on a sheet.
type Path []Point

// Bounds returns the smallest rectangle that holds the path.
func (p Path) Bounds() Rect { return RectOf(p...) }

// Length returns the drawn length in units.
func (p Path) Length() float64 {
	sum := 0.0
	for i := 1; i < len(p); i++ {
		sum += p[i-1].Dist(p[i])
	}
	return sum
}

// Orthogonal reports whether every segment is horizontal or vertical.
func (p Path) Orthogonal() bool {
	for i := 1; i < len(p); i++ {
		if p[i-1].X != p[i].X && p[i-1].Y != p[i].Y {
			return false
		}
	}
	return true
}

// Clean returns the path without repeated points and without points in the
// middle of a straight run. A spike (a run that turns back on itself) is cut.
// The first and last point stay.
func (p Path) Clean() Path {
	out := make(Path, 0, len(p))
	for _, q := range p {
		for {
			n := len(out)
			if n > 0 && out[n-1] == q {
				out = out[:n-1]
				continue
			}
			if n > 1 && InLine(out[n-2], out[n-1], q) {
				out = out[:n-1]
				continue
			}
			break
		}
		out = append(out, q)
	}
	if len(out) == 1 && len(p) > 1 {
		out = append(out, out[0])
	}
	return out
}

// Middle returns the place half way along the path.
func (p Path) Middle() Point { return p.At(0.5) }

// At returns the place on the path at a share of its length, 0 to 1.
func (p Path) At(share float64) Point {
	if len(p) == 0 {
		return Point{}
	}
	left := share * p.Length()
	for i := 1; i < len(p); i++ {
		d := p[i-1].Dist(p[i])
		if d >= left && d > 0 {
			v := p[i].Sub(p[i-1])
			return p[i-1].Add(Point{int(math.Round(float64(v.X) * left / d)), int(math.Round(float64(v.Y) * left / d))})
		}
		left -= d
	}
	return p[len(p)-1]
}

// InLine reports whether three points lie on one horizontal or vertical line.
func InLine(a, b, c Point) bool {
	return a.X == b.X && b.X == c.X || a.Y == b.Y && b.Y == c.Y
}

// Dist returns the distance from q to the nearest place on the path, the index
// of that segment's first point, and the place itself. An empty path is
// infinitely far.
func (p Path) Dist(q Point) (dist float64, segment int, at Point) {
	dist = math.Inf(1)
	if len(p) == 1 {
		return p[0].Dist(q), 0, p[0]
	}
	for i := 1; i < len(p); i++ {
		c := nearest(p[i-1], p[i], q)
		if d := c.Dist(q); d < dist {
			dist, segment, at = d, i-1, c
		}
	}
	return dist, segment, at
}

func nearest(a, b, q Point) Point {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	l2 := dx*dx + dy*dy
	if l2 == 0 {
		return a
	}
	t := (float64(q.X-a.X)*dx + float64(q.Y-a.Y)*dy) / l2
	t = max(0, min(1, t))
	return Point{a.X + int(math.Round(t*dx)), a.Y + int(math.Round(t*dy))}
}

// Dir is one of the four directions a pin can face; the zero value is none.
type Dir int

const (
	NoDir Dir = iota
	Right
	Down
	Left
	Up
)

// Vec returns the unit step in direction d.
func (d Dir) Vec() Point {
	switch d {
	case Right:
		return Point{1, 0}
	case Down:
		return Point{0, 1}
	case Left:
		return Point{-1, 0}
	case Up:
		return Point{0, -1}
	}
	return Point{}
}

// DirOf returns the direction of an axis-parallel displacement, NoDir otherwise.
func DirOf(v Point) Dir {
	switch {
	case v.X > 0 && v.Y == 0:
		return Right
	case v.X < 0 && v.Y == 0:
		return Left
	case v.Y > 0 && v.X == 0:
		return Down
	case v.Y < 0 && v.X == 0:
		return Up
	}
	return NoDir
}

// Dir turns a direction.
func (o Orient) Dir(d Dir) Dir { return DirOf(o.Apply(d.Vec())) }
