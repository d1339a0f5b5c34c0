package ui

import (
	"image/color"

	"fyne.io/fyne/v2"

	"loomwright/schematic/geom"
)

func (o *overlay) frame(p pane, area geom.Rect, stroke, fill color.Color, width float32) {
	a, b := p.at(area.Min), p.at(area.Max)
	r := o.rects.next(o)
	r.FillColor, r.StrokeColor, r.StrokeWidth = fill, stroke, width
	place(r, a, fyne.NewSize(b.X-a.X, b.Y-a.Y))
}

// mostDashes keeps a dashed line cheap to draw however long it is.
const mostDashes = 40

func (o *overlay) dashes(a, b fyne.Position, c color.Color, width float32) {
	length := max(b.X-a.X, b.Y-a.Y)
	n := max(3, min(mostDashes, int(length/12))) // three tell a dashed frame from corners
	step := fyne.NewDelta((b.X-a.X)/float32(n), (b.Y-a.Y)/float32(n))
	for i := range n {
		from := a.AddXY(step.DX*float32(i), step.DY*float32(i))
		o.line(from, from.AddXY(step.DX*0.6, step.DY*0.6), c, width)
	}
}

func (o *overlay) line(a, b fyne.Position, c color.Color, width float32) {
	l := o.lines.next(o)
	l.StrokeColor, l.StrokeWidth = c, width
	l.Position1, l.Position2 = a, b
	l.Refresh()
}

func (o *overlay) path(p pane, path geom.Path, c color.Color, width float32) {
	for i := 1; i < len(path); i++ {
		o.line(p.at(path[i-1]), p.at(path[i]), c, width)
	}
}

func (o *overlay) ring(at fyne.Position, radius float32, c color.Color, width float32) {
	r := o.rings.next(o)
	r.FillColor, r.StrokeColor, r.StrokeWidth = color.Transparent, c, width
	place(r, at.SubtractXY(radius, radius), fyne.NewSquareSize(2*radius))
}

func place(obj fyne.CanvasObject, at fyne.Position, size fyne.Size) {
	obj.Move(at)
	obj.Resize(size)
	obj.Refresh()
}

func faded(c color.Color, alpha uint8) color.Color {
	r, g, b, _ := c.RGBA()
	return color.NRGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), alpha}
}
