package export

import "math"

// The sheet's grid as dots: every 2.5 mm (the grid of package geom), and every
// fourth of them where the fine ones become too dense.
const (
	dotPitchMM = 2.5
	dotCoarse  = 4
	dotFadePx  = 6.0  // invisible at this distance
	dotFullPx  = 14.0 // full strength from here
	dotGrowPx  = 40.0 // dots grow beyond a pixel from here
	dotMostPx  = 3.0  // and no further
	dotOpacity = 0.85
)

// paintDots paints the grid inside the sheet, given its corners in pixels.
func (b *band) paintDots(tl, br pt) {
	fine := dotPitchMM * b.at.scale
	b.dotGrid(tl, br, fine)
	if fine < dotFullPx {
		b.dotGrid(tl, br, fine*dotCoarse)
	}
}

func (b *band) dotGrid(tl, br pt, pitch float64) {
	strength := dotOpacity * min(1, (pitch-dotFadePx)/(dotFullPx-dotFadePx))
	if strength <= 0 {
		return
	}
	k := ink(b.pal.Dot)
	a := k.cover(strength)
	x0, x1 := inside(b.at.dx, pitch, max(tl.x+1, 0), min(br.x-1, float64(b.w)))
	y0, y1 := inside(b.at.dy, pitch, max(tl.y+1, float64(b.y0-2)), min(br.y-1, float64(b.y1+2)))
	half := min(pitch/dotGrowPx, dotMostPx) / 2
	for j := y0; j <= y1; j++ {
		cy := snap(b.at.dy + float64(j)*pitch)
		for i := x0; i <= x1; i++ {
			cx := snap(b.at.dx + float64(i)*pitch)
			if half > 0.5 {
				b.rect(cx-half, cy-half, cx+half, cy+half, k.faded(strength))
			} else if cx >= 0 && cx < float64(b.w) && cy >= float64(b.y0) && cy < float64(b.y1) {
				b.dab(int(cx), int(cy), k, a)
			}
		}
	}
}

// inside returns the first and last multiple of pitch, counted from shift,
// between lo and hi.
func inside(shift, pitch, lo, hi float64) (first, last int) {
	if !(lo < hi) {
		return 0, -1
	}
	return int(math.Ceil((lo - shift) / pitch)), int(math.Floor((hi - shift) / pitch))
}
