package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// handles marks the ends and bends of a wire that can be taken hold of.
func (o *overlay) handles(p pane, k schematic.Key, c color.Color) {
	w := p.doc.Wire(k.ID)
	if w == nil || k.Type != schematic.TypeWire || w.Sheet != p.sheet || w.Locked {
		return
	}
	path := p.doc.Path(w)
	for i := 1; i < len(path); i++ {
		o.pushHandle(p.at(path[i-1]), p.at(path[i]), c)
	}
	for i, q := range path {
		at := p.at(q)
		half := float32(3)
		if i == 0 || i == len(path)-1 {
			half = 4.5
		}
		r := o.rects.next(o)
		r.FillColor, r.StrokeColor, r.StrokeWidth = theme.Color(theme.ColorNameInputBackground), c, 2
		place(r, at.SubtractXY(half, half), fyne.NewSquareSize(2*half))
	}
}

// pushHandle marks the middle of a stretch that is long enough to be pushed
// sideways there.
func (o *overlay) pushHandle(a, b fyne.Position, c color.Color) {
	const long, half, thin = 48, 6, 1.5
	wide, high := float32(half), float32(thin)
	if a.X == b.X {
		wide, high = thin, half
	}
	if max(a.X-b.X, b.X-a.X)+max(a.Y-b.Y, b.Y-a.Y) < long {
		return
	}
	r := o.rects.next(o)
	r.FillColor, r.StrokeColor, r.StrokeWidth = theme.Color(theme.ColorNameInputBackground), c, 1.5
	place(r, fyne.NewPos((a.X+b.X)/2-wide, (a.Y+b.Y)/2-high), fyne.NewSize(2*wide, 2*high))
}

// railGap is how far the outline of a wire stands off its middle: clear of the
// widest wire at usual zooms, near enough to be one thing with it.
const railGap = 4.5

// rails outlines a wire by a line on either side, so that its own colour, and
// what is written beside it, stay in sight.
func (o *overlay) rails(p pane, path geom.Path, c color.Color, width float32) {
	pts := make([]fyne.Position, len(path))
	for i, q := range path {
		pts[i] = p.at(q)
	}
	for _, side := range [2]float32{railGap, -railGap} {
		for i := 1; i < len(pts); i++ {
			o.line(aside(pts, i-1, i, side), aside(pts, i, i, side), c, width)
		}
	}
	for _, end := range [2][2]int{{0, 1}, {len(pts) - 1, len(pts) - 1}} {
		if len(pts) > 1 {
			o.line(aside(pts, end[0], end[1], railGap), aside(pts, end[0], end[1], -railGap), c, width)
		}
	}
}

// aside returns where the outline at a distance beside a path of level and
// upright stretches turns at point i; seg is the stretch that is drawn, named by
// its end.
func aside(pts []fyne.Position, i, seg int, by float32) fyne.Position {
	at := pts[i]
	for _, s := range [2]int{i, i + 1} { // the stretches that meet there
		if s < 1 || s >= len(pts) {
			continue
		}
		a, b := pts[s-1], pts[s]
		if s != seg && (a.X == b.X) == (pts[seg-1].X == pts[seg].X) {
			continue // straight on: one stretch tells it all
		}
		switch {
		case a.X != b.X:
			at.Y += by * sign(b.X-a.X)
		case a.Y != b.Y:
			at.X -= by * sign(b.Y-a.Y)
		}
	}
	return at
}

func sign(v float32) float32 {
	if v < 0 {
		return -1
	}
	return 1
}
