package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
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
	return append(path, s.live[1:]...).Clean()
}

// via returns the bends to draw the wire with.
func (s wireDrawing) via() []geom.Point {
	path := s.path()
	if len(s.fixed) == 0 && !s.flip {
		return route.Bends(path, s.start.tip(), s.end.tip())
	}
	if len(path) < 3 {
		return nil
	}
	return path[1 : len(path)-1]
}

// lead finds the live stretch from the last click to the present end: round
// what is in the way, or with the other corner when that is asked for.
func (s *wireDrawing) lead(env Env) {
	a, z := s.start.tip(), s.end.tip()
	b := route.Of(env.Doc(), env.Sheet())
	if n := len(s.fixed); n > 0 {
		a = route.Tip{At: s.last(), Dir: s.turn()}
		drawn := geom.Path{s.start.at}
		for _, f := range s.fixed {
			drawn = append(drawn, f...)
		}
		b.AddWire(&schematic.Wire{}, drawn.Clean())
	}
	plain := schematic.AutoPath(a.At, a.Dir, z.At, z.Dir)
	switch {
	case !s.flip || a.At.X == z.At.X || a.At.Y == z.At.Y:
		s.live = b.Way(a, z).Path
	case plain[0].Y == plain[1].Y: // the other corner: the first step across the one chosen
		s.live = geom.Path{a.At, geom.Pt(a.At.X, z.At.Y), z.At}
	default:
		s.live = geom.Path{a.At, geom.Pt(z.At.X, a.At.Y), z.At}
	}
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
