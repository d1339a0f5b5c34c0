package export

import (
	"context"
	"image/color"
	"slices"

	"codeberg.org/go-pdf/fpdf"

	"loomwright/schematic/draw"
)

// pdfInk writes the marks of a list to a page or template whose unit is the
// millimetre, and repeats no setting that already holds.
type pdfInk struct {
	pdf *fpdf.Fpdf
	pal *Palette

	begun      bool
	line, area color.RGBA
	width      float64
	dash       []float64
	dashAt     float64
	size       float64
	bold       bool
}

// list writes a whole list; a cancelled context cuts it short.
func (k *pdfInk) list(ctx context.Context, l *draw.List) {
	k.pdf.SetLineJoinStyle("round")
	k.pdf.SetLineCapStyle("round")
	k.pdf.SetDashPattern([]float64{}, 0)
	for i := range l.Marks {
		if i%1024 == 0 && ctx.Err() != nil {
			return
		}
		switch op := l.Marks[i].Op.(type) {
		case *draw.Stroke:
			k.stroke(op)
		case *draw.Fill:
			if op != nil && writablePath(op.Path) {
				k.fillColor(k.pal.Color(op.Ink, op.Color))
				k.path(op.Path, sameplace)
				k.pdf.DrawPath("f")
			}
		case *draw.Text:
			k.text(op)
		}
	}
}

func sameplace(p draw.Point) draw.Point { return p }

func (k *pdfInk) stroke(op *draw.Stroke) {
	if op == nil {
		return
	}
	width, ok := penWidth(op)
	if !ok {
		return
	}
	if c := k.pal.Color(op.Ink, op.Color); !k.begun || c != k.line {
		k.pdf.SetDrawColor(straight(c))
		k.line = c
	}
	if !k.begun || width != k.width {
		k.pdf.SetLineWidth(width)
		k.width = width
	}
	k.begun = true
	dash := dashMM(op)
	start := dashStart(op, dash)
	if !slices.Equal(dash, k.dash) || start != k.dashAt {
		if (dash == nil) != (k.dash == nil) {
			k.pdf.SetLineCapStyle(map[bool]string{true: "round", false: "butt"}[dash == nil])
		}
		k.pdf.SetDashPattern(dash, start)
		k.dash, k.dashAt = dash, start
	}
	k.path(op.Path, sameplace)
	k.pdf.DrawPath("S")
}

func straight(c color.RGBA) (r, g, b int) {
	k := ink(c)
	return int(k.rb & 0xff), int(k.ga & 0xff), int(k.rb >> 16)
}

func (k *pdfInk) fillColor(c color.RGBA) {
	if c != k.area || k.area == (color.RGBA{}) {
		k.pdf.SetFillColor(straight(c))
		k.pdf.SetTextColor(straight(c))
		k.area = c
	}
}

func (k *pdfInk) path(path []draw.Seg, to func(draw.Point) draw.Point) {
	begun := false // a path must begin with a move
	for i := range path {
		s := &path[i]
		switch {
		case s.Verb == draw.Close:
			if begun {
				k.pdf.ClosePath()
			}
			continue
		case s.Verb > draw.Close:
			continue
		}
		p := to(s.P)
		switch {
		case s.Verb == draw.MoveTo || !begun:
			k.pdf.MoveTo(p.X, p.Y)
		case s.Verb == draw.LineTo:
			k.pdf.LineTo(p.X, p.Y)
		default:
			c1, c2 := to(s.C1), to(s.C2)
			k.pdf.CurveBezierCubicTo(c1.X, c1.Y, c2.X, c2.Y, p.X, p.Y)
		}
		begun = true
	}
}

// text writes text that can be searched. What the font lacks becomes the same
// box as on the screen.
func (k *pdfInk) text(t *draw.Text) {
	if t == nil || !writableText(t) {
		return
	}
	k.fillColor(k.pal.Color(t.Ink, t.Color))
	if t.Size != k.size || t.Bold != k.bold {
		style := ""
		if t.Bold {
			style = "B"
		}
		k.pdf.SetFont(pdfFont, style, t.Size*72/mmPerInch)
		k.size, k.bold = t.Size, t.Bold
	}
	if q := turnOf(t.Angle); q != 0 {
		k.pdf.TransformBegin()
		k.pdf.TransformRotate(-90*float64(q), t.At.X, t.At.Y) // fpdf turns anticlockwise
		defer k.pdf.TransformEnd()
	}
	s, x := plainText(t.S), t.At.X
	for len(s) > 0 {
		known := prefix(s, t.Bold, true)
		if known > 0 {
			k.pdf.Text(x, t.At.Y, s[:known])
			x += draw.Measure(s[:known], t.Size, t.Bold)
			s = s[known:]
		}
		for _, r := range s[:prefix(s, t.Bold, false)] {
			outline, advance := draw.Outline(r, t.Bold)
			k.path(outline, func(p draw.Point) draw.Point {
				return draw.Point{X: x + p.X*t.Size, Y: t.At.Y + p.Y*t.Size}
			})
			k.pdf.DrawPath("f")
			x += advance * t.Size
		}
		s = s[prefix(s, t.Bold, false):]
	}
}

// prefix returns the length of the beginning of s that the font has, or lacks.
func prefix(s string, bold, has bool) int {
	for i, r := range s {
		if draw.Has(r, bold) != has {
			return i
		}
	}
	return len(s)
}
