// Package view is the arithmetic of looking at a sheet: where a millimetre of
// paper lies on the screen, and where an item can be looked at. It knows no
// toolkit.
//
// Start with [Camera], which turns sheet places into pixels and back.
package view

import (
	"math"

	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
)

// Limits of the zoom, in device pixels per millimetre. The lower one shows the
// largest sheet on a small window, the upper one a single pin.
const (
	MinPxPerMM = 0.05
	MaxPxPerMM = 120
)

// Camera places a sheet in a window of W × H device pixels. The zero value
// shows nothing; start with [Camera.Fit]. Cameras are values: every method
// returns a new one.
type Camera struct {
	PxPerMM float64
	Origin  draw.Point // place on the sheet, in mm, at the window's top left pixel
	W, H    int        // device pixels
}

// ToPx returns where a place on the sheet (mm) lies in the window.
func (c Camera) ToPx(p draw.Point) draw.Point {
	return draw.Point{X: (p.X - c.Origin.X) * c.PxPerMM, Y: (p.Y - c.Origin.Y) * c.PxPerMM}
}

// ToMM returns the place on the sheet (mm) that a window pixel shows.
func (c Camera) ToMM(p draw.Point) draw.Point {
	if c.PxPerMM <= 0 {
		return c.Origin
	}
	return draw.Point{X: p.X/c.PxPerMM + c.Origin.X, Y: p.Y/c.PxPerMM + c.Origin.Y}
}

// At returns the nearest sheet point to a window pixel, within the range that
// documents allow.
func (c Camera) At(px draw.Point) geom.Point {
	mm := c.ToMM(px)
	const most = geom.MaxCoord / geom.PerMM
	return geom.FromMM(clamp(mm.X, -most, most), clamp(mm.Y, -most, most))
}

// PointPx is ToPx for a sheet point in units.
func (c Camera) PointPx(p geom.Point) draw.Point {
	x, y := p.MM()
	return c.ToPx(draw.Point{X: x, Y: y})
}

// Zoom multiplies the scale by factor and keeps the place under pixel at where
// it is. At the limits it zooms as far as it can.
func (c Camera) Zoom(factor float64, at draw.Point) Camera {
	return c.ZoomTo(c.PxPerMM*factor, at)
}

// ZoomTo is Zoom to a given scale.
func (c Camera) ZoomTo(pxPerMM float64, at draw.Point) Camera {
	if math.IsNaN(pxPerMM) || pxPerMM <= 0 {
		return c
	}
	held := c.ToMM(at)
	c.PxPerMM = clamp(pxPerMM, MinPxPerMM, MaxPxPerMM)
	c.Origin = draw.Point{X: held.X - at.X/c.PxPerMM, Y: held.Y - at.Y/c.PxPerMM}
	return c
}

// Pan moves the drawing by so many pixels: right and down are positive.
func (c Camera) Pan(dx, dy float64) Camera {
	if c.PxPerMM > 0 {
		c.Origin.X -= dx / c.PxPerMM
		c.Origin.Y -= dy / c.PxPerMM
	}
	return c
}

// Resize changes the window and keeps the place in its middle.
func (c Camera) Resize(w, h int) Camera {
	if c.PxPerMM > 0 {
		c.Origin.X += float64(c.W-w) / 2 / c.PxPerMM
		c.Origin.Y += float64(c.H-h) / 2 / c.PxPerMM
	}
	c.W, c.H = w, h
	return c
}

// Fit shows the whole box with a margin of that many pixels.
func (c Camera) Fit(box draw.Box, margin float64) Camera {
	bw, bh := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	w, h := float64(c.W)-2*margin, float64(c.H)-2*margin
	if w < 1 || h < 1 {
		w, h = max(1, float64(c.W)), max(1, float64(c.H))
	}
	scale := float64(MaxPxPerMM)
	if bw > 0 {
		scale = min(scale, w/bw)
	}
	if bh > 0 {
		scale = min(scale, h/bh)
	}
	c.PxPerMM = clamp(scale, MinPxPerMM, MaxPxPerMM)
	return c.Centre(draw.Point{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2})
}

// Centre shows a place on the sheet in the middle of the window.
func (c Camera) Centre(p draw.Point) Camera {
	if c.PxPerMM > 0 {
		c.Origin = draw.Point{X: p.X - float64(c.W)/2/c.PxPerMM, Y: p.Y - float64(c.H)/2/c.PxPerMM}
	}
	return c
}

// Keep returns the camera moved as little as needed so that at least a part of
// the sheet stays in the window: nobody gets lost in empty space.
func (c Camera) Keep(sheet draw.Box) Camera {
	v := c.Visible()
	keepX := min((v.Max.X-v.Min.X)/4, (sheet.Max.X-sheet.Min.X)/4)
	keepY := min((v.Max.Y-v.Min.Y)/4, (sheet.Max.Y-sheet.Min.Y)/4)
	c.Origin.X += nudge(v.Min.X, v.Max.X, sheet.Min.X, sheet.Max.X, keepX)
	c.Origin.Y += nudge(v.Min.Y, v.Max.Y, sheet.Min.Y, sheet.Max.Y, keepY)
	return c
}

// nudge returns how far the stretch lo..hi must move to share keep with a..b.
func nudge(lo, hi, a, b, keep float64) float64 {
	switch {
	case hi < a+keep:
		return a + keep - hi
	case lo > b-keep:
		return b - keep - lo
	}
	return 0
}

// Visible returns the part of the sheet plane the window shows.
func (c Camera) Visible() draw.Box {
	return draw.Box{Min: c.Origin, Max: c.ToMM(draw.Point{X: float64(c.W), Y: float64(c.H)})}
}

// Shows reports whether the whole box is in the window.
func (c Camera) Shows(b draw.Box) bool {
	v := c.Visible()
	return b.Min.X >= v.Min.X && b.Min.Y >= v.Min.Y && b.Max.X <= v.Max.X && b.Max.Y <= v.Max.Y
}

// BoxMM returns a rectangle of sheet units in millimetres.
func BoxMM(r geom.Rect) draw.Box {
	x0, y0 := r.Min.MM()
	x1, y1 := r.Max.MM()
	return draw.Box{Min: draw.Point{X: x0, Y: y0}, Max: draw.Point{X: x1, Y: y1}}
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }
