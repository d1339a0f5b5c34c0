package export

import (
	"math"

	"loomwright/schematic/draw"
)

// pen is how a stroke is painted, in pixels.
type pen struct {
	r      float64 // half the width, at least half a pixel
	offset float64 // into the dash pattern
	color  pixel
}

// stroke paints a stroke whose bound is extent pixels long. Lines are never
// thinner than a pixel, so that they do not break up; a dashed stripe along a
// wire fades instead, since it would hide the wire.
func (b *band) stroke(s *draw.Stroke, extent float64) {
	width := far(s.Width * b.at.scale)
	if !(width >= 0) || !b.numbers(s.Path) {
		return
	}
	if width < hairlinePx && extent < detailPx {
		return
	}
	if width < 1 && s.Ink == draw.InkWireRim && !b.at.exact {
		return // the wire, which is painted a pixel wide, covers it
	}
	k := b.ink(s.Ink, s.Color)
	b.dash = appendDash(b.dash[:0], s, b.at.scale)
	if width < 1 {
		switch wire := s.Ink == draw.InkOwn || s.Ink == draw.InkBare; {
		case wire && len(b.dash) == 0:
			k = ink(b.pal.afar(b.pal.Color(s.Ink, s.Color)))
		case wire && width < stripePx && !b.at.exact:
			return
		case wire:
			k = k.faded(width)
		}
		width = 1
	}
	if k.alpha == 0 {
		return
	}
	p := pen{r: width / 2, color: k}
	if finite(s.Offset) {
		p.offset = far(s.Offset * b.at.scale)
	}

	b.knots = b.knots[:0]
	for i := range s.Path {
		seg := &s.Path[i]
		switch seg.Verb {
		case draw.MoveTo:
			b.subpath(false, p)
			b.knots = append(b.knots[:0], knot{p: b.px(seg.P)})
		case draw.LineTo, draw.CubeTo:
			k := knot{p: b.px(seg.P)}
			if seg.Verb == draw.CubeTo {
				k.curve, k.c1, k.c2 = true, b.px(seg.C1), b.px(seg.C2)
			}
			if len(b.knots) == 0 { // a path may begin without MoveTo
				b.knots = append(b.knots, knot{p: k.p})
			}
			b.knots = append(b.knots, k)
		case draw.Close:
			b.subpath(true, p)
			b.knots = b.knots[:0]
		}
	}
	b.subpath(false, p)
}

// knot is a point of a sub-path and how it is reached from the one before.
type knot struct {
	curve     bool
	c1, c2, p pt
}

// subpath paints b.knots.
func (b *band) subpath(closed bool, p pen) {
	if len(b.knots) == 0 {
		return
	}
	if first := b.knots[0].p; closed && b.knots[len(b.knots)-1].p != first {
		b.knots = append(b.knots, knot{p: first})
	}
	if !b.at.exact {
		snapKnots(b.knots, closed)
	}
	b.pts = append(b.pts[:0], b.knots[0].p)
	for i := range b.knots[1:] {
		k := &b.knots[i+1]
		if k.curve {
			b.pts = appendCurve(b.pts, k.c1, k.c2, k.p, lineTolerance)
		} else if k.p != b.pts[len(b.pts)-1] {
			b.pts = append(b.pts, k.p)
		}
	}
	switch {
	case len(b.dash) > 0:
		b.dashed(b.pts, p)
	case len(b.pts) == 1:
		b.bar(b.pts[0], b.pts[0], p.r, round, p.color)
	case len(b.pts) == 2 && !axisParallel(b.pts):
		b.bar(b.pts[0], b.pts[1], p.r, round, p.color)
	default:
		b.polyline(b.pts, p.r, p.color)
	}
}

// How far in pixels a straightened curve may stray. Fills lose area by it,
// lines only move.
const (
	lineTolerance = 0.1
	fillTolerance = 0.04
)

// appendCurve adds a cubic from the last point, straightened.
func appendCurve(pts []pt, c1, c2, p pt, tolerance float64) []pt {
	a := pts[len(pts)-1]
	d := max(
		math.Hypot(a.x-2*c1.x+c2.x, a.y-2*c1.y+c2.y),
		math.Hypot(c1.x-2*c2.x+p.x, c1.y-2*c2.y+p.y))
	// |B''| ≤ 6d, and a chord over 1/n strays by at most |B''|/(8n²).
	n := int(min(512, 1+math.Sqrt(0.75*d/tolerance)))
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		q0, q1, q2, q3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		pts = append(pts, pt{
			q0*a.x + q1*c1.x + q2*c2.x + q3*p.x,
			q0*a.y + q1*c1.y + q2*c2.y + q3*p.y,
		})
	}
	return append(pts, p)
}

// polyline paints lines that join. Long horizontal and vertical pieces are
// painted directly; what lies between them is painted as a whole, so that no
// pixel gets the colour twice.
func (b *band) polyline(pts []pt, r float64, k pixel) {
	const long = 16.0
	for i := 0; i+1 < len(pts); {
		j := i
		for j+1 < len(pts) && axisParallel(pts[j:j+2]) {
			j++
		}
		if j > i && (j-i > 1 || span1(pts[i], pts[j]) > long || len(pts) == 2) {
			b.axisLine(pts[i:j+1], r, k)
			i = j
			continue
		}
		j = i + 1
		for j+1 < len(pts) && !(axisParallel(pts[j:j+2]) && span1(pts[j], pts[j+1]) > long) {
			j++
		}
		b.united(pts[i:j+1], r, k)
		i = j
	}
}

// span1 is the larger of the two coordinate distances.
func span1(p, q pt) float64 { return max(math.Abs(p.x-q.x), math.Abs(p.y-q.y)) }

func axisParallel(pts []pt) bool {
	for i := 1; i < len(pts); i++ {
		if pts[i].x != pts[i-1].x && pts[i].y != pts[i-1].y {
			return false
		}
	}
	return true
}
