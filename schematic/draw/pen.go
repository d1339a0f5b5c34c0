package draw

import (
	"image/color"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Widths of lines in mm. IEC 60617 symbols on a 2.5 mm module are drawn with
// lines of a tenth of it.
const (
	thinLine   = 0.15
	plainLine  = 0.25
	boldLine   = 0.5
	frameLine  = 0.5
	railLine   = 1.4
	glowMargin = 0.6 // trace glow beyond the edge of the wire, each side: up to its label
)

// pen collects marks of one owner.
type pen struct {
	owner schematic.Key
	with  float64 // for the marks to come: see Mark.With
	marks []Mark
}

func (p *pen) add(op Op) {
	p.marks = append(p.marks, Mark{Op: op, Owner: p.owner, Bound: bound(op), With: p.with})
}

func (p *pen) stroke(path []Seg, width float64, ink Ink) {
	p.add(&Stroke{Path: path, Width: width, Ink: ink})
}

func (p *pen) dashed(path []Seg, width float64, ink Ink, dash ...float64) {
	p.add(&Stroke{Path: path, Width: width, Ink: ink, Dash: dash})
}

func (p *pen) own(path []Seg, width float64, c color.RGBA, dash ...float64) {
	p.add(&Stroke{Path: path, Width: width, Ink: InkOwn, Color: c, Dash: dash})
}

func (p *pen) fill(path []Seg, ink Ink) { p.add(&Fill{Path: path, Ink: ink}) }

func (p *pen) text(t *Text) {
	if t.S != "" {
		p.add(t)
	}
}

// bound returns the box of an op, stroke width included.
func bound(op Op) Box {
	switch op := op.(type) {
	case *Stroke:
		return pathBox(op.Path).Grow(op.Width / 2)
	case *Fill:
		return pathBox(op.Path)
	case *Text:
		return op.Box()
	}
	panic("draw: an op that is neither stroke, fill nor text")
}

// mm turns a place of the model into millimetres.
func mm(p geom.Point) Point {
	x, y := p.MM()
	return Point{x, y}
}

func boxMM(r geom.Rect) Box { return Box{mm(r.Min), mm(r.Max)} }

// polyline returns the path through the points.
func polyline(pts ...Point) []Seg {
	path := make([]Seg, len(pts))
	for i, q := range pts {
		path[i] = Seg{Verb: LineTo, P: q}
	}
	if len(path) > 0 {
		path[0].Verb = MoveTo
	}
	return path
}

func polygon(pts ...Point) []Seg { return append(polyline(pts...), Seg{Verb: Close}) }

func rectPath(b Box) []Seg {
	return polygon(b.Min, Point{b.Max.X, b.Min.Y}, b.Max, Point{b.Min.X, b.Max.Y})
}

// kappa is how far the control points of a quarter circle stand off, as a
// share of the radius.
const kappa = 0.5522847498

// circlePath returns a circle clockwise from its rightmost point.
func circlePath(c Point, r float64) []Seg {
	k := kappa * r
	return []Seg{
		{Verb: MoveTo, P: c.add(r, 0)},
		{Verb: CubeTo, C1: c.add(r, k), C2: c.add(k, r), P: c.add(0, r)},
		{Verb: CubeTo, C1: c.add(-k, r), C2: c.add(-r, k), P: c.add(-r, 0)},
		{Verb: CubeTo, C1: c.add(-r, -k), C2: c.add(-k, -r), P: c.add(0, -r)},
		{Verb: CubeTo, C1: c.add(k, -r), C2: c.add(r, -k), P: c.add(r, 0)},
		{Verb: Close},
	}
}

// roundRect returns a rectangle with corners of radius r, at most a half circle.
func roundRect(b Box, r float64) []Seg {
	r = max(0, min(r, (b.Max.X-b.Min.X)/2, (b.Max.Y-b.Min.Y)/2))
	k := r * (1 - kappa)
	x0, y0, x1, y1 := b.Min.X, b.Min.Y, b.Max.X, b.Max.Y
	return []Seg{
		{Verb: MoveTo, P: Point{x0 + r, y0}},
		{Verb: LineTo, P: Point{x1 - r, y0}},
		{Verb: CubeTo, C1: Point{x1 - k, y0}, C2: Point{x1, y0 + k}, P: Point{x1, y0 + r}},
		{Verb: LineTo, P: Point{x1, y1 - r}},
		{Verb: CubeTo, C1: Point{x1, y1 - k}, C2: Point{x1 - k, y1}, P: Point{x1 - r, y1}},
		{Verb: LineTo, P: Point{x0 + r, y1}},
		{Verb: CubeTo, C1: Point{x0 + k, y1}, C2: Point{x0, y1 - k}, P: Point{x0, y1 - r}},
		{Verb: LineTo, P: Point{x0, y0 + r}},
		{Verb: CubeTo, C1: Point{x0, y0 + k}, C2: Point{x0 + k, y0}, P: Point{x0 + r, y0}},
		{Verb: Close},
	}
}
