package export

import "math"

// ending says how a bar ends.
type ending bool

const (
	round ending = false // half a disc beyond the end
	butt  ending = true  // at the end
)

// bar is a straight piece of line with half-width r. The share of a pixel that
// it covers is taken from the distance of the pixel's centre to its edge; for
// horizontal and vertical bars of a pixel or more that is the exact area.
type bar struct {
	from           pt
	ux, uy         float64 // unit direction; (1, 0) for a dot
	length         float64
	r, reach       float64 // reach: where coverage ends
	end            ending
	x0, y0, x1, y1 int // pixels it may touch, x1 and y1 excluded
}

func newBar(p, q pt, r float64, end ending) bar {
	v := bar{from: p, ux: 1, r: r, reach: r + 0.5, end: end}
	dx, dy := q.x-p.x, q.y-p.y
	if d := math.Sqrt(dx*dx + dy*dy); d > 0 {
		v.ux, v.uy, v.length = dx/d, dy/d, d
	}
	v.x0, v.x1 = int(math.Floor(min(p.x, q.x)-v.reach)), int(math.Ceil(max(p.x, q.x)+v.reach))
	v.y0, v.y1 = int(math.Floor(min(p.y, q.y)-v.reach)), int(math.Ceil(max(p.y, q.y)+v.reach))
	return v
}

// clip keeps the bar's pixels inside x0 ≤ x < x1, y0 ≤ y < y1.
func (v *bar) clip(x0, y0, x1, y1 int) {
	v.x0, v.y0 = max(v.x0, x0), max(v.y0, y0)
	v.x1, v.y1 = min(v.x1, x1), min(v.y1, y1)
}

// row returns the pixels of a row that the bar may touch.
func (v *bar) row(y int) (x0, x1 int) {
	if math.Abs(v.uy) < 1e-9 {
		return v.x0, v.x1
	}
	mid := v.from.x + (float64(y)+0.5-v.from.y)*v.ux/v.uy
	half := v.reach / math.Abs(v.uy)
	// The caps reach no further sideways than the straight part of this row
	// or the corners of the bar, which x0 and x1 hold already.
	lo, hi := max(mid-half, float64(v.x0)), min(mid+half, float64(v.x1))
	if !(lo < hi) {
		return 0, 0
	}
	return int(lo), min(int(math.Ceil(hi)), v.x1)
}

// cover returns the share 0..1 of pixel (x, y) that the bar covers.
func (v *bar) cover(x, y int) float64 {
	dx, dy := float64(x)+0.5-v.from.x, float64(y)+0.5-v.from.y
	along := dx*v.ux + dy*v.uy
	across := math.Abs(dy*v.ux - dx*v.uy)
	share := v.reach - across
	if share <= 0 {
		return 0
	}
	if v.end == butt {
		part := min(along+0.5, v.length) - max(along-0.5, 0)
		return min(share, 1) * max(part, 0)
	}
	if over := max(-along, along-v.length); over > 0 { // beyond an end
		share = v.reach - math.Sqrt(over*over+across*across)
	}
	return max(0, min(share, 1))
}

// bar paints one bar.
func (b *band) bar(p, q pt, r float64, end ending, k pixel) {
	if end == butt && (p.x == q.x || p.y == q.y) {
		b.buttRect(p, q, r, k)
		return
	}
	v := newBar(p, q, r, end)
	v.clip(0, b.y0, b.w, b.y1)
	for y := v.y0; y < v.y1; y++ {
		x0, x1 := v.row(y)
		row := b.pix[y*b.stride : y*b.stride+4*b.w]
		for x := x0; x < x1; x++ {
			if a := k.cover(v.cover(x, y)); a > 0 {
				blend(row[4*x:4*x+4], k, a)
			}
		}
	}
}

func (b *band) buttRect(p, q pt, r float64, k pixel) {
	if p.y == q.y {
		b.rect(min(p.x, q.x), p.y-r, max(p.x, q.x), p.y+r, k)
	} else {
		b.rect(p.x-r, min(p.y, q.y), p.x+r, max(p.y, q.y), k)
	}
}

// Above this many pixels joined bars are painted one by one, which costs less
// than a mask and differs only where their edges meet.
const maxMask = 1 << 18

// united paints bars that join as one shape: each pixel once, with the largest
// of their coverages.
func (b *band) united(pts []pt, r float64, k pixel) {
	x0, y0, x1, y1 := b.region(pts, r)
	w, h := x1-x0, y1-y0
	if w <= 0 || h <= 0 {
		return
	}
	if w*h > maxMask {
		for i := 1; i < len(pts); i++ {
			b.bar(pts[i-1], pts[i], r, round, k)
		}
		return
	}
	mask := b.clearMask(w * h)
	for i := 1; i < len(pts); i++ {
		v := newBar(pts[i-1], pts[i], r, round)
		v.clip(x0, y0, x1, y1)
		for y := v.y0; y < v.y1; y++ {
			row := mask[(y-y0)*w : (y-y0+1)*w]
			from, to := v.row(y)
			for x := from; x < to; x++ {
				if c := byte(v.cover(x, y)*255 + 0.5); c > row[x-x0] {
					row[x-x0] = c
				}
			}
		}
	}
	b.blendMask(mask, x0, y0, w, h, k)
}

// region returns the visible pixels round points, x1 and y1 excluded.
func (b *band) region(pts []pt, r float64) (x0, y0, x1, y1 int) {
	lo, hi := box(pts)
	r++
	return max(0, int(math.Floor(lo.x-r))), max(b.y0, int(math.Floor(lo.y-r))),
		min(b.w, int(math.Ceil(hi.x+r))), min(b.y1, int(math.Ceil(hi.y+r)))
}

// box returns the corners of the box round at least one point.
func box(pts []pt) (lo, hi pt) {
	lo, hi = pts[0], pts[0]
	for _, p := range pts[1:] {
		lo = pt{min(lo.x, p.x), min(lo.y, p.y)}
		hi = pt{max(hi.x, p.x), max(hi.y, p.y)}
	}
	return lo, hi
}

func (b *band) clearMask(n int) []byte {
	if cap(b.mask) < n {
		b.mask = make([]byte, n)
	}
	b.mask = b.mask[:n]
	clear(b.mask)
	return b.mask
}

// blendMask blends a w×h mask, which lies wholly inside, at (x0, y0).
func (c *canvas) blendMask(mask []byte, x0, y0, w, h int, k pixel) {
	for y := range h {
		row := c.pix[(y0+y)*c.stride+4*x0:]
		row = row[:4*w]
		for x, m := range mask[y*w : (y+1)*w] {
			if m != 0 {
				blend(row[4*x:4*x+4], k, (uint32(m)*k.alpha+127)/255)
			}
		}
	}
}
