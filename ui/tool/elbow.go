package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// last returns the place the live stretch starts from.
func (s wireDrawing) last() geom.Point {
	if n := len(s.fixed); n > 0 {
		return s.fixed[n-1][len(s.fixed[n-1])-1]
	}
	return s.start.at
}

// path returns the whole wire as it would be drawn.
func (s wireDrawing) path() geom.Path {
	path := geom.Path{s.start.at}
	for _, f := range s.fixed {
		path = append(path, f...)
	}
	return append(path, s.stretch()[1:]...).Clean()
}

// via returns the bends to draw the wire with; none leaves the choice open.
func (s wireDrawing) via() []geom.Point {
	path := s.path()
	if len(s.fixed) == 0 && !s.flip || len(path) < 3 {
		return nil
	}
	return path[1 : len(path)-1]
}

// stretch returns the live piece from the last click to the present end.
func (s wireDrawing) stretch() geom.Path {
	a, b := s.last(), s.end.at
	dir := s.start.dir
	if len(s.fixed) > 0 {
		dir = s.turn()
	}
	path := schematic.AutoPath(a, dir, b, s.end.dir)
	if !s.flip || a.X == b.X || a.Y == b.Y {
		return path
	}
	// The other elbow: the first step across the one chosen.
	corner := geom.Pt(b.X, a.Y)
	if path[0].Y == path[1].Y {
		corner = geom.Pt(a.X, b.Y)
	}
	return geom.Path{a, corner, b}
}

// turn returns the way the stretch after a click sets out: across the way it
// came, since a click asks for a bend, or on when the end lies straight ahead.
func (s wireDrawing) turn() geom.Dir {
	came := geom.Path{s.start.at}
	for _, f := range s.fixed {
		came = append(came, f...)
	}
	came = came.Clean()
	at := came[len(came)-1]
	to := s.end.at.Sub(at)
	level := came[len(came)-2].Y == at.Y
	if level && to.Y != 0 || to.X == 0 {
		return geom.DirOf(geom.Pt(0, to.Y))
	}
	return geom.DirOf(geom.Pt(to.X, 0))
}
