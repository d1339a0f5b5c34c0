package draw

import (
	"math"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// placing maps a symbol's own coordinates (in 0.1 mm) to the sheet.
type placing struct {
	orient geom.Orient
	at     Point
}

func placingOf(v schematic.View) placing {
	t := v.Transform()
	return placing{t.Orient, mm(t.At)}
}

// pt places a point given in units, which need not be whole.
func (t placing) pt(x, y float64) Point {
	x, y = x/geom.PerMM, y/geom.PerMM
	if t.orient.Mirror {
		x = -x
	}
	switch t.orient.Turns & 3 {
	case 1:
		x, y = -y, x
	case 2:
		x, y = -x, -y
	case 3:
		x, y = y, -x
	}
	return t.at.add(x, y)
}

func (t placing) point(p geom.Point) Point { return t.pt(float64(p.X), float64(p.Y)) }

func (t placing) points(ps []geom.Point) []Point {
	out := make([]Point, len(ps))
	for i, p := range ps {
		out[i] = t.point(p)
	}
	return out
}

// shapes draws a symbol. Shapes that lack points are left out: a kind in a
// file may be wrong, and its check says so.
func (p *pen) shapes(shapes []schematic.Shape, t placing) {
	for _, s := range shapes {
		if s.Type == "text" {
			p.shapeText(s, t)
			continue
		}
		path := shapePath(s, t)
		if len(path) == 0 {
			continue
		}
		if ink, ok := fillInk(s.Fill); ok && s.Type != "line" {
			p.fill(path, ink)
		}
		var dash []float64
		if s.Dashed {
			dash = []float64{1.2, 0.8}
		}
		p.dashed(path, lineWeight(s.Weight), InkSymbol, dash...)
	}
}

func shapePath(s schematic.Shape, t placing) []Seg {
	switch s.Type {
	case "line":
		if len(s.Points) > 1 {
			return polyline(t.points(s.Points)...)
		}
	case "polygon":
		if len(s.Points) > 2 {
			return polygon(t.points(s.Points)...)
		}
	case "rect":
		if len(s.Points) == 2 {
			r := geom.RectOf(s.Points...)
			return polygon(t.point(r.Min), t.point(geom.Pt(r.Max.X, r.Min.Y)), t.point(r.Max), t.point(geom.Pt(r.Min.X, r.Max.Y)))
		}
	case "circle":
		if len(s.Points) == 1 && s.Radius > 0 {
			return append(arcPath(t, s.Points[0], s.Radius, 0, 360), Seg{Verb: Close})
		}
	case "arc":
		if len(s.Points) == 1 && s.Radius > 0 && s.Sweep != 0 && !math.IsNaN(s.Start+s.Sweep) && !math.IsInf(s.Start+s.Sweep, 0) {
			return arcPath(t, s.Points[0], s.Radius, s.Start, max(-360, min(360, s.Sweep)))
		}
	}
	return nil
}

// arcPath returns an arc of degrees clockwise from the right, before placement.
func arcPath(t placing, c geom.Point, radius int, start, sweep float64) []Seg {
	n := int(math.Ceil(math.Abs(sweep)/90 - 1e-9))
	n = max(n, 1)
	step := sweep / float64(n) * math.Pi / 180
	k := 4. / 3 * math.Tan(step/4)
	r, x, y := float64(radius), float64(c.X), float64(c.Y)
	at := func(a, off float64) Point {
		sin, cos := math.Sincos(a)
		return t.pt(x+r*(cos-off*sin), y+r*(sin+off*cos))
	}
	a := start * math.Pi / 180
	path := []Seg{{Verb: MoveTo, P: at(a, 0)}}
	for range n {
		path = append(path, Seg{Verb: CubeTo, C1: at(a, k), C2: at(a+step, -k), P: at(a+step, 0)})
		a += step
	}
	return path
}

// shapeText draws a symbol's own letters. They stay upright, however the
// symbol lies.
func (p *pen) shapeText(s schematic.Shape, t placing) {
	if len(s.Points) != 1 {
		return
	}
	size := float64(s.Size) / geom.PerMM
	if size <= 0 {
		size = sizeName
	}
	p.text(middleText(s.Text, t.point(s.Points[0]), 0, size, s.Weight == "bold", InkSymbol))
}

func fillInk(fill string) (Ink, bool) {
	switch fill {
	case "solid":
		return InkSymbol, true
	case "body":
		return InkFill, true
	case "paper":
		return InkPaper, true
	}
	return 0, false
}

func lineWeight(weight string) float64 {
	switch weight {
	case "thin":
		return thinLine
	case "bold":
		return boldLine
	}
	return plainLine
}
