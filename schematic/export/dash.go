package export

import (
	"math"

	"loomwright/schematic/draw"
)

// dashMM returns the dash pattern of a stroke in mm, or nil for a solid line.
// Dashes end square, so that their lengths are as given; a dash of no length
// is a dot as long as the line is wide. All outputs use this one pattern.
func dashMM(s *draw.Stroke) []float64 {
	d := appendDash(nil, s, 1)
	if len(d) == 0 {
		return nil
	}
	return d
}

// appendDash adds the pattern times scale: an even number of lengths, or none
// for a solid line or a pattern that makes no sense.
func appendDash(dst []float64, s *draw.Stroke, scale float64) []float64 {
	start, sum := len(dst), 0.0
	for range 1 + len(s.Dash)%2 { // an odd pattern repeats with on and off swapped
		for _, d := range s.Dash {
			if !(d >= 0) {
				return dst[:start]
			}
			if d == 0 && (len(dst)-start)%2 == 0 {
				d = s.Width
			}
			d = min(d, furthestMM)
			dst = append(dst, d*scale)
			sum += d * scale
		}
	}
	if !(sum > 0) || !finite(sum) {
		return dst[:start]
	}
	return dst
}

// Dashes closer than this, in pixels, are painted as a fainter solid line.
const minDashPx = 2.0

// dashed paints a polyline with the pattern in b.dash.
func (b *band) dashed(pts []pt, p pen) {
	period, on := 0.0, 0.0
	for i, d := range b.dash {
		period += d
		if i%2 == 0 {
			on += d
		}
	}
	if period < minDashPx {
		b.dash = b.dash[:0]
		if len(pts) > 1 {
			b.polyline(pts, p.r, p.color.faded(on/period))
		}
		return
	}
	at := math.Mod(p.offset, period)
	if at < 0 {
		at += period
	}
	for i := 1; i < len(pts); i++ {
		length := math.Hypot(pts[i].x-pts[i-1].x, pts[i].y-pts[i-1].y)
		b.dashPiece(pts[i-1], pts[i], length, at, period, p)
		at = math.Mod(at+length, period)
	}
}

// dashPiece paints the dashes of one straight piece that begins at length at
// of the pattern, leaving out those before and after the picture.
func (b *band) dashPiece(from, to pt, length, at, period float64, p pen) {
	if length <= 0 {
		return
	}
	ux, uy := (to.x-from.x)/length, (to.y-from.y)/length
	first, last := b.along(from, ux, uy)
	first, last = max(first-1, 0), min(last+1, length)
	s := first - math.Mod(first+at, period) // the start of a pattern
	for s < last {
		for i, d := range b.dash {
			if lo, hi := max(s, 0), min(s+d, length); i%2 == 0 && lo < hi && hi > first && lo < last {
				b.bar(pt{from.x + ux*lo, from.y + uy*lo}, pt{from.x + ux*hi, from.y + uy*hi}, p.r, butt, p.color)
			}
			s += d
		}
	}
}

// along returns where the band begins and ends when looked at along a line.
func (b *band) along(from pt, ux, uy float64) (first, last float64) {
	first, last = math.Inf(1), math.Inf(-1)
	for _, x := range [2]float64{0, float64(b.w)} {
		for _, y := range [2]float64{float64(b.y0), float64(b.y1)} {
			s := (x-from.x)*ux + (y-from.y)*uy
			first, last = min(first, s), max(last, s)
		}
	}
	return first, last
}
