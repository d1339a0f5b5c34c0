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
	r := router{a: a, b: b, dirA: dirA, dirB: dirB, cost: 1e18}
	r.search()
	return append(geom.Path(nil), r.best[:r.n]...)
}

// What a path costs beside its length in units.
const (
	costBend    = 2000
	costAside   = 3000  // leaves a pin sideways
	costThrough = 20000 // leaves a pin back through the part's body
)

// router tries paths of up to four bends. It holds them in arrays: a sheet of
// wires is routed on every redraw.
type router struct {
	a, b       geom.Point
	dirA, dirB geom.Dir
	best       [6]geom.Point
	n          int
	cost       float64
}

func (r *router) search() {
	const out = 2 * geom.Grid
	a, b := r.a, r.b
	mid := geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2).Snap(geom.Grid)
	xs := [...]int{a.X, b.X, mid.X, min(a.X, b.X) - out, max(a.X, b.X) + out}
	ys := [...]int{a.Y, b.Y, mid.Y, min(a.Y, b.Y) - out, max(a.Y, b.Y) + out}
	for _, x := range xs {
		r.try(a, geom.Pt(x, a.Y), geom.Pt(x, b.Y), b)
	}
	for _, y := range ys {
		r.try(a, geom.Pt(a.X, y), geom.Pt(b.X, y), b)
	}
	if r.cost < 3*costBend {
		return // two bends or fewer, and both pins left the way they face
	}
	for _, x := range xs {
		for _, y := range ys {
			r.try(a, geom.Pt(x, a.Y), geom.Pt(x, y), geom.Pt(b.X, y), b)
			r.try(a, geom.Pt(a.X, y), geom.Pt(x, y), geom.Pt(x, b.Y), b)
		}
	}
	if r.cost < 4*costBend {
		return
	}
	for _, x := range xs {
		for _, y := range ys {
			for i := range xs {
				r.try(a, geom.Pt(x, a.Y), geom.Pt(x, y), geom.Pt(xs[i], y), geom.Pt(xs[i], b.Y), b)
				r.try(a, geom.Pt(a.X, y), geom.Pt(x, y), geom.Pt(x, ys[i]), geom.Pt(b.X, ys[i]), b)
			}
		}
	}
}

// try takes the path if it is better than the best one so far.
func (r *router) try(pts ...geom.Point) {
	var clean [6]geom.Point
	n := 0
	for _, q := range pts {
		for n > 0 && (clean[n-1] == q || n > 1 && geom.InLine(clean[n-2], clean[n-1], q)) {
			n--
		}
		clean[n] = q
		n++
	}
	if n == 1 {
		clean[1], n = clean[0], 2
	}
	cost := costBend * float64(n-2)
	for i := 1; i < n; i++ {
		cost += float64(abs(clean[i].X-clean[i-1].X) + abs(clean[i].Y-clean[i-1].Y))
	}
	cost += against(clean[1].Sub(clean[0]), r.dirA) + against(clean[n-2].Sub(clean[n-1]), r.dirB)
	if cost < r.cost {
		r.best, r.n, r.cost = clean, n, cost
	}
}

func abs(v int) int { return max(v, -v) }

// against prices a first step that does not leave the pin the way it faces.
func against(step geom.Point, dir geom.Dir) float64 {
	got := geom.DirOf(step)
	switch {
	case dir == geom.NoDir || got == dir || got == geom.NoDir:
		return 0
	case got.Vec() == dir.Vec().Neg():
		return costThrough
	}
	return costAside
}
