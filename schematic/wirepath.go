package schematic

import "loomwright/schematic/geom"

// EndAt returns where a wire's end is drawn on the wire's sheet and the way it
// leaves. It is false when no view on that sheet shows the pin.
func (d *Doc) EndAt(w *Wire, e End) (geom.Point, geom.Dir, bool) {
	if e.Loose() {
		return e.At, geom.NoDir, true
	}
	p := d.Part(e.Part)
	if p == nil {
		return e.At, geom.NoDir, false
	}
	for _, exact := range []bool{true, false} {
		for _, v := range p.Views {
			if v.Sheet != w.Sheet || exact && v.Key != e.View {
				continue
			}
			for _, pp := range d.PlacedPins(p, v) {
				if pp.Pin.Name == e.Pin {
					return pp.At, pp.Dir, true
				}
			}
		}
	}
	return e.At, geom.NoDir, false
}

// Path returns the wire as drawn: from end A over its bends to end B, always
// orthogonal. Bends that are not in line get an elbow; a wire without bends
// leaves its pins the way they face.
func (d *Doc) Path(w *Wire) geom.Path {
	a, dirA, _ := d.EndAt(w, w.A)
	b, dirB, _ := d.EndAt(w, w.B)
	return RoutePath(a, dirA, w.Via, b, dirB)
}

// RoutePath is [Doc.Path] for ends that are not part of a document yet.
func RoutePath(a geom.Point, dirA geom.Dir, via []geom.Point, b geom.Point, dirB geom.Dir) geom.Path {
	if len(via) == 0 {
		return AutoPath(a, dirA, b, dirB)
	}
	path := geom.Path{a}
	dir := dirA
	for _, q := range via {
		last := path[len(path)-1]
		if last.X != q.X && last.Y != q.Y {
			path = append(path, elbow(last, dir, q))
		}
		path = append(path, q)
		dir = geom.NoDir
	}
	last := path[len(path)-1]
	if last.X != b.X && last.Y != b.Y {
		path = append(path, elbow(b, dirB, last))
	}
	return append(path, b).Clean()
}

// elbow returns the corner of the way from p to q that leaves p along dir.
func elbow(p geom.Point, dir geom.Dir, q geom.Point) geom.Point {
	if dir == geom.Up || dir == geom.Down {
		return geom.Pt(p.X, q.Y)
	}
	return geom.Pt(q.X, p.Y)
}

// AutoPath returns the plainest orthogonal path from a to b that leaves both
// ends the way they face: fewest bends first, then shortest.
func AutoPath(a geom.Point, dirA geom.Dir, b geom.Point, dirB geom.Dir) geom.Path {
	const out = 2 * geom.Grid
	mid := geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2).Snap(geom.Grid)
	xs := []int{a.X, b.X, mid.X, min(a.X, b.X) - out, max(a.X, b.X) + out}
	ys := []int{a.Y, b.Y, mid.Y, min(a.Y, b.Y) - out, max(a.Y, b.Y) + out}
	best, bestCost := geom.Path{a, b}, 1e18
	try := func(p geom.Path) {
		p = p.Clean()
		if c := cost(p, dirA, dirB); c < bestCost {
			best, bestCost = p, c
		}
	}
	for _, x := range xs {
		try(geom.Path{a, geom.Pt(x, a.Y), geom.Pt(x, b.Y), b})
		for _, y := range ys {
			try(geom.Path{a, geom.Pt(x, a.Y), geom.Pt(x, y), geom.Pt(b.X, y), b})
		}
	}
	for _, y := range ys {
		try(geom.Path{a, geom.Pt(a.X, y), geom.Pt(b.X, y), b})
		for _, x := range xs {
			try(geom.Path{a, geom.Pt(a.X, y), geom.Pt(x, y), geom.Pt(x, b.Y), b})
		}
	}
	return best
}

func cost(p geom.Path, dirA, dirB geom.Dir) float64 {
	c := p.Length() + 2000*float64(len(p)-2)
	if len(p) < 2 {
		return c
	}
	return c + against(p[1].Sub(p[0]), dirA) + against(p[len(p)-2].Sub(p[len(p)-1]), dirB)
}

// against prices a first step that does not leave the pin the way it faces:
// back through the body is worst.
func against(step geom.Point, dir geom.Dir) float64 {
	got := geom.DirOf(step)
	switch {
	case dir == geom.NoDir || got == dir || got == geom.NoDir:
		return 0
	case step.Add(dir.Vec()) == (geom.Point{}) || got.Vec().Add(dir.Vec()) == (geom.Point{}):
		return 20000
	}
	return 3000
}
