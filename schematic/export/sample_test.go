package export

import (
	"image/color"
	"math"

	"loomwright/schematic/draw"
)

// builder makes display lists for tests.
type builder struct{ list draw.List }

func newSheet(w, h float64) *builder {
	return &builder{draw.List{Size: draw.Point{X: w, Y: h}}}
}

func (b *builder) add(op draw.Op) *builder {
	b.list.Marks = append(b.list.Marks, draw.Mark{Op: op, Bound: boundOf(op)})
	return b
}

// boundOf is the mark's box, written apart from the code under test.
func boundOf(op draw.Op) draw.Box {
	lo, hi := draw.Point{X: math.Inf(1), Y: math.Inf(1)}, draw.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	add := func(p draw.Point, r float64) {
		lo = draw.Point{X: min(lo.X, p.X-r), Y: min(lo.Y, p.Y-r)}
		hi = draw.Point{X: max(hi.X, p.X+r), Y: max(hi.Y, p.Y+r)}
	}
	path := func(p []draw.Seg, r float64) {
		for _, s := range p {
			if s.Verb == draw.CubeTo {
				add(s.C1, r)
				add(s.C2, r)
			}
			if s.Verb != draw.Close {
				add(s.P, r)
			}
		}
	}
	switch op := op.(type) {
	case *draw.Stroke:
		path(op.Path, op.Width/2)
	case *draw.Fill:
		path(op.Path, 0)
	case *draw.Text:
		return textBox(op)
	}
	return draw.Box{Min: lo, Max: hi}
}

// textBox is the box that the text's metrics promise.
func textBox(t *draw.Text) draw.Box {
	w := draw.Measure(t.S, t.Size, t.Bold)
	up, down := draw.Ascent(t.Size), draw.Descent(t.Size)
	sin, cos := math.Sincos(t.Angle * math.Pi / 180)
	b := draw.Box{Min: draw.Point{X: math.Inf(1), Y: math.Inf(1)}, Max: draw.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, c := range [][2]float64{{0, -up}, {w, -up}, {w, down}, {0, down}} {
		x, y := t.At.X+c[0]*cos-c[1]*sin, t.At.Y+c[0]*sin+c[1]*cos
		b.Min = draw.Point{X: min(b.Min.X, x), Y: min(b.Min.Y, y)}
		b.Max = draw.Point{X: max(b.Max.X, x), Y: max(b.Max.Y, y)}
	}
	return b
}

// poly is a path through points given as x, y, x, y, …
func poly(xy ...float64) []draw.Seg {
	var out []draw.Seg
	for i := 0; i+1 < len(xy); i += 2 {
		v := draw.LineTo
		if i == 0 {
			v = draw.MoveTo
		}
		out = append(out, draw.Seg{Verb: v, P: draw.Point{X: xy[i], Y: xy[i+1]}})
	}
	return out
}

func closed(path []draw.Seg) []draw.Seg { return append(path, draw.Seg{Verb: draw.Close}) }

func circle(x, y, r float64) []draw.Seg {
	const k = 0.5522847498 // makes a cubic follow a quarter circle to within 0.03 %
	p := func(dx, dy float64) draw.Point { return draw.Point{X: x + dx*r, Y: y + dy*r} }
	return closed([]draw.Seg{
		{Verb: draw.MoveTo, P: p(1, 0)},
		{Verb: draw.CubeTo, C1: p(1, k), C2: p(k, 1), P: p(0, 1)},
		{Verb: draw.CubeTo, C1: p(-k, 1), C2: p(-1, k), P: p(-1, 0)},
		{Verb: draw.CubeTo, C1: p(-1, -k), C2: p(-k, -1), P: p(0, -1)},
		{Verb: draw.CubeTo, C1: p(k, -1), C2: p(1, -k), P: p(1, 0)},
	})
}

func (b *builder) stroke(ink draw.Ink, width float64, path []draw.Seg) *builder {
	return b.add(&draw.Stroke{Path: path, Width: width, Ink: ink})
}

func (b *builder) fill(ink draw.Ink, path []draw.Seg) *builder {
	return b.add(&draw.Fill{Path: path, Ink: ink})
}

func (b *builder) text(x, y, size, angle float64, ink draw.Ink, s string) *builder {
	return b.add(&draw.Text{At: draw.Point{X: x, Y: y}, Size: size, Angle: angle, Ink: ink, S: s, Bold: ink == draw.InkText})
}

// wire adds rim, insulation and tracer as package draw does.
func (b *builder) wire(base, tracer color.RGBA, path []draw.Seg) *builder {
	b.stroke(draw.InkWireRim, 1.0, path)
	b.add(&draw.Stroke{Path: path, Width: 0.7, Ink: draw.InkOwn, Color: base})
	if tracer.A != 0 {
		b.add(&draw.Stroke{Path: path, Width: 0.25, Ink: draw.InkOwn, Color: tracer, Dash: []float64{2, 1.5}})
	}
	return b
}

// sample is an invented sheet with every kind of mark.
func sample() *draw.List {
	b := newSheet(210, 148)
	b.stroke(draw.InkFrame, 0.35, closed(poly(5, 5, 205, 5, 205, 143, 5, 143)))
	b.stroke(draw.InkFrame, 0.25, poly(5, 130, 205, 130))
	b.text(8, 138, 4, 0, draw.InkText, "Cooling fan and lamps")
	b.text(90, 135, 1.8, 0, draw.InkFaint, "Calculation aid only. Follow the vehicle maker's data; disconnect the battery before work.")
	white, black, red, blue := rgb(0xFFFFFF), rgb(0x101010), rgb(0xC8102E), rgb(0x1F4E9E)
	yellow, green := rgb(0xF5D000), rgb(0x1E8C3A)
	for i, w := range [][2]color.RGBA{{white, red}, {black, {}}, {yellow, black}, {blue, white}, {red, {}}, {green, yellow}} {
		y := 20 + 5*float64(i)
		b.wire(w[0], w[1], poly(20, y, 60+2.5*float64(i), y, 60+2.5*float64(i), 110-y/2, 110, 110-y/2))
		b.text(25, y-0.9, 1.8, 0, draw.InkFaint, "W"+string(rune('1'+i))+" 1.5 mm² BU/RD")
	}
	b.stroke(draw.InkTrace, 2.2, poly(120, 20, 150, 20, 150, 60))
	b.wire(red, white, append(append(poly(120, 20, 133.75, 20),
		draw.Seg{Verb: draw.CubeTo, C1: draw.Point{X: 133.75, Y: 18.3}, C2: draw.Point{X: 136.25, Y: 18.3}, P: draw.Point{X: 136.25, Y: 20}}),
		poly(0, 0, 150, 20, 150, 60)[1:]...))
	b.wire(black, color.RGBA{}, poly(135, 10, 135, 40))
	b.fill(draw.InkJoint, circle(150, 40, 0.8))
	b.wire(blue, color.RGBA{}, poly(150, 40, 175, 40))
	// A lamp, a fuse, a switch, a coil, an earth symbol.
	b.fill(draw.InkFill, circle(150, 65, 5))
	b.stroke(draw.InkSymbol, 0.35, circle(150, 65, 5))
	b.stroke(draw.InkSymbol, 0.35, poly(146.46, 61.46, 153.54, 68.54))
	b.stroke(draw.InkSymbol, 0.35, poly(153.54, 61.46, 146.46, 68.54))
	b.text(156.5, 64, 2.5, 0, draw.InkText, "E4")
	b.text(156.5, 67, 2, 0, draw.InkFaint, "55 W, 12 V, 2.6 Ω ≥ 5°")
	b.fill(draw.InkFill, closed(poly(175, 37.5, 187.5, 37.5, 187.5, 42.5, 175, 42.5)))
	b.stroke(draw.InkSymbol, 0.35, closed(poly(175, 37.5, 187.5, 37.5, 187.5, 42.5, 175, 42.5)))
	b.stroke(draw.InkSymbol, 0.25, poly(175, 40, 187.5, 40))
	b.text(178, 36, 2.5, 0, draw.InkText, "F3 15 A")
	b.stroke(draw.InkSymbol, 0.35, poly(150, 70, 150, 80))
	b.stroke(draw.InkSymbol, 0.35, poly(150, 85, 146, 79))
	b.add(&draw.Stroke{Path: poly(140, 82, 148, 82), Width: 0.25, Ink: draw.InkSymbol, Dash: []float64{1, 0.8}})
	b.stroke(draw.InkSymbol, 0.35, poly(150, 85, 150, 95))
	for i := range 3 {
		w, y := 4-1.3*float64(i), 95+1.2*float64(i)
		b.stroke(draw.InkSymbol, 0.35, poly(150-w, y, 150+w, y))
	}
	for i, a := range []float64{0, 90, 180, 270} {
		b.text(180, 80, 3, a, draw.Ink([]draw.Ink{draw.InkText, draw.InkFaint, draw.InkInfo, draw.InkCurrent}[i]), "Ag 4.2 A")
	}
	b.fill(draw.InkError, closed(poly(110, 120, 113, 114.5, 116, 120)))
	b.text(117.5, 119.5, 2.5, 0, draw.InkError, "over the limit")
	b.fill(draw.InkWarn, closed(poly(150, 117, 153, 114, 156, 117, 153, 120)))
	b.text(157.5, 119.5, 2.5, 0, draw.InkWarn, "near the limit")
	b.fill(draw.InkInfo, circle(185, 117, 2.6))
	b.fill(draw.InkPaper, circle(185, 117, 1.4))
	b.text(70, 120, 8, 0, draw.InkSymbol, "K2 µ²")
	b.text(20, 120, 3, 0, draw.InkText, "<&> \"q\" ✂ \U0001F50C x")
	return &b.list
}
