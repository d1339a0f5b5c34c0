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
// of the pattern, leaving out what lies outside the picture.
func (b *band) dashPiece(from, to pt, length, at, period float64, p pen) {
	t0, t1 := b.inView(from, to, p.r+1)
	if length <= 0 || t0 >= t1 {
		return
	}
	ux, uy := (to.x-from.x)/length, (to.y-from.y)/length
	s, end := t0*length, t1*length // along the piece
	s -= math.Mod(s+at, period)    // back to the start of a pattern
	for s < end {
		for i, d := range b.dash {
			if i%2 == 0 {
				if a, z := max(s, 0), min(s+d, length); a < z && z > t0*length {
					q0, q1 := pt{from.x + ux*a, from.y + uy*a}, pt{from.x + ux*z, from.y + uy*z}
					b.bar(q0, q1, p.r, butt, p.color)
				}
			}
			s += d
		}
	}
}

// inView returns the shares of the line between which it may touch the
// picture when it reaches r to either side; t0 ≥ t1 when it cannot.
func (b *band) inView(p, q pt, r float64) (t0, t1 float64) {
	t0, t1 = 0, 1
	cut := func(from, d, lo, hi float64) {
		if d == 0 {
			if from < lo || from > hi {
				t0, t1 = 1, 0
			}
			return
		}
		a, z := (lo-from)/d, (hi-from)/d
		if a > z {
			a, z = z, a
		}
		t0, t1 = max(t0, a), min(t1, z)
	}
	cut(p.x, q.x-p.x, -r, float64(b.w)+r)
	cut(p.y, q.y-p.y, float64(b.y0)-r, float64(b.y1)+r)
	return t0, t1
}
