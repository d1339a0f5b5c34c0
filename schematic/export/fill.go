package export

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	sheet "loomwright/schematic/draw"
)

// Filled shapes of at most this size move to the pixel centre like the lines
// they sit on.
const smallFillPx = 12.0

// fillPath paints a filled path given in millimetres.
func (b *band) fillPath(path []sheet.Seg, k pixel) {
	if len(path) < 3 || k.alpha == 0 || !b.numbers(path) {
		return
	}
	lo, hi := extent(path, b.px)
	if !(lo.x <= hi.x && lo.y <= hi.y) {
		return
	}
	shift := pt{}
	if !b.at.exact && hi.x-lo.x <= smallFillPx && hi.y-lo.y <= smallFillPx {
		cx, cy := (lo.x+hi.x)/2, (lo.y+hi.y)/2
		shift = pt{snap(cx) - cx, snap(cy) - cy}
	}
	if isRect(path) {
		b.rect(lo.x+shift.x, lo.y+shift.y, hi.x+shift.x, hi.y+shift.y, k)
		return
	}
	b.fillWith(path, func(p sheet.Point) pt {
		q := b.px(p)
		return pt{q.x + shift.x, q.y + shift.y}
	}, k)
}

// fillSmall paints a fill whose shape cannot be told.
func (b *band) fillSmall(p *planned, m *sheet.Mark) {
	var own color.RGBA
	if p.ink == sheet.InkOwn {
		own = m.Op.(*sheet.Fill).Color
	}
	k := b.ink(p.ink, own).faded(float64(p.share) / 255)
	lo, hi := b.px(sheet.Point{X: float64(p.x0), Y: float64(p.y0)}), b.px(sheet.Point{X: float64(p.x1), Y: float64(p.y1)})
	cx, cy := (lo.x+hi.x)/2, (lo.y+hi.y)/2
	dx, dy := snap(cx)-cx, snap(cy)-cy
	b.rect(lo.x+dx, lo.y+dy, hi.x+dx, hi.y+dy, k)
}

// extent returns the corners of a path's box in pixels, control points
// included; of an empty path lo lies beyond hi.
func extent(path []sheet.Seg, to func(sheet.Point) pt) (lo, hi pt) {
	lo, hi = pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
	reach := func(p sheet.Point) {
		q := to(p)
		lo, hi = pt{min(lo.x, q.x), min(lo.y, q.y)}, pt{max(hi.x, q.x), max(hi.y, q.y)}
	}
	for i := range path {
		switch s := &path[i]; s.Verb {
		case sheet.CubeTo:
			reach(s.C1)
			reach(s.C2)
			reach(s.P)
		case sheet.MoveTo, sheet.LineTo:
			reach(s.P)
		}
	}
	return lo, hi
}

// fillWith paints a filled path that to takes to pixels.
func (b *band) fillWith(path []sheet.Seg, to func(sheet.Point) pt, k pixel) {
	lo, hi := extent(path, to)
	x0, y0 := max(0, floor(lo.x)), max(b.y0, floor(lo.y))
	x1, y1 := min(b.w, ceil(hi.x)), min(b.y1, ceil(hi.y))
	if x0 >= x1 || y0 >= y1 {
		return
	}
	// The rasteriser counts in 1/512 pixels and walks every row from the top
	// of a line, so shapes that reach far out are cut first.
	const roomPx = 1000
	near := lo.x > float64(x0-roomPx) && hi.x < float64(x1+roomPx) &&
		lo.y > float64(y0-roomPx) && hi.y < float64(y1+roomPx)
	b.raster.Reset(x1-x0, y1-y0)
	b.raster.DrawOp = draw.Src
	local := func(p sheet.Point) pt {
		q := to(p)
		return pt{q.x - float64(x0), q.y - float64(y0)}
	}
	b.trace(path, local, x1-x0, y1-y0, !near)
	b.blendRaster(x0, y0, x1-x0, y1-y0, k)
}

// floor and ceil round pixel coordinates, which are never far; an empty
// extent gives an empty range.
func floor(v float64) int { return int(math.Floor(min(v, farPx))) }
func ceil(v float64) int  { return int(math.Ceil(max(v, -farPx))) }

// blendRaster blends what the rasteriser holds.
func (b *band) blendRaster(x0, y0, w, h int, k pixel) {
	mask := b.clearMask(w * h)
	b.alpha = image.Alpha{Pix: mask, Stride: w, Rect: image.Rect(0, 0, w, h)}
	b.raster.Draw(&b.alpha, b.alpha.Rect, image.Opaque, image.Point{})
	b.blendMask(mask, x0, y0, w, h, k)
}

// trace hands a path to the rasteriser; cut leaves out what lies outside
// 0..w, 0..h.
func (b *band) trace(path []sheet.Seg, to func(sheet.Point) pt, w, h int, cut bool) {
	b.pts = b.pts[:0]
	for i := range path {
		s := &path[i]
		switch s.Verb {
		case sheet.MoveTo:
			b.tracePolygon(w, h, cut)
			b.pts = append(b.pts[:0], to(s.P))
		case sheet.LineTo:
			b.pts = append(b.pts, to(s.P))
		case sheet.CubeTo:
			if len(b.pts) == 0 {
				b.pts = append(b.pts, to(s.P))
			}
			b.pts = appendCurve(b.pts, to(s.C1), to(s.C2), to(s.P), fillTolerance)
		}
	}
	b.tracePolygon(w, h, cut)
}

func (b *band) tracePolygon(w, h int, cut bool) {
	if cut {
		b.cutPolygon(float64(w), float64(h))
	}
	for i, p := range b.pts {
		if i == 0 {
			b.raster.MoveTo(float32(p.x), float32(p.y))
		} else {
			b.raster.LineTo(float32(p.x), float32(p.y))
		}
	}
	if len(b.pts) > 0 {
		b.raster.ClosePath()
	}
}

// cutPolygon cuts the polygon in b.pts to a frame (Sutherland and Hodgman,
// "Reentrant polygon clipping", 1974).
func (b *band) cutPolygon(w, h float64) {
	in, out := b.pts, b.clip[:0]
	for side := range 4 {
		depth := func(p pt) float64 { // inside where positive
			switch side {
			case 0:
				return p.x
			case 1:
				return w - p.x
			case 2:
				return p.y
			}
			return h - p.y
		}
		out = out[:0]
		for i := range in {
			p, q := in[i], in[(i+1)%len(in)]
			dp, dq := depth(p), depth(q)
			if dp >= 0 {
				out = append(out, p)
			}
			if dp >= 0 != (dq >= 0) {
				t := dp / (dp - dq)
				out = append(out, pt{p.x + t*(q.x-p.x), p.y + t*(q.y-p.y)})
			}
		}
		in, out = out, in
	}
	b.pts, b.clip = in, out
}

// isRect reports whether a path is one axis-parallel rectangle.
func isRect(path []sheet.Seg) bool {
	n := len(path)
	if n > 0 && path[n-1].Verb == sheet.Close {
		n--
	}
	if n == 5 && path[4].Verb == sheet.LineTo && path[4].P == path[0].P {
		n--
	}
	if n != 4 || path[0].Verb != sheet.MoveTo {
		return false
	}
	for i := 1; i < 4; i++ {
		if path[i].Verb != sheet.LineTo {
			return false
		}
	}
	a, b, c, d := path[0].P, path[1].P, path[2].P, path[3].P
	return a.X == b.X && b.Y == c.Y && c.X == d.X && d.Y == a.Y ||
		a.Y == b.Y && b.X == c.X && c.Y == d.Y && d.X == a.X
}
