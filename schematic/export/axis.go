package export

import "math"

// Half-width in pixels up to which the ends of lines are square: a round end
// of the same area could not be told apart.
const squareEnds = 1.25

// axisLine paints horizontal and vertical lines that join: exact rectangles,
// and where they end or meet, the round shape, each pixel once.
func (b *band) axisLine(pts []pt, r float64, k pixel) {
	if r <= squareEnds {
		b.thinAxisLine(pts, r, k)
		return
	}
	closed := len(pts) > 2 && pts[0] == pts[len(pts)-1]
	last := len(pts) - 1
	for i := 0; i <= last; {
		j := i
		for j < last && tooClose(pts[j], pts[j+1], r) {
			j++
		}
		if !(closed && i == last) { // the first corner is the last one, too
			b.corner(pts, i, j, r, k, closed)
		}
		if j < last {
			b.between(pts[j], pts[j+1], r, k)
		}
		i = j + 1
	}
}

func (b *band) thinAxisLine(pts []pt, r float64, k pixel) {
	more := r * math.Pi / 4 // as much area as a round end
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		if p.y == q.y {
			b.rect(min(p.x, q.x)-more, p.y-r, max(p.x, q.x)+more, p.y+r, k)
		} else {
			b.rect(p.x-r, min(p.y, q.y)-more, p.x+r, max(p.y, q.y)+more, k)
		}
	}
}

// cell returns the whole pixels that the end of a line at v may touch.
func cell(v, r float64) (lo, hi float64) {
	return math.Floor(v - r - 0.5), math.Ceil(v + r + 0.5)
}

func tooClose(p, q pt, r float64) bool {
	a, c := min(p.x, q.x), max(p.x, q.x)
	if p.x == q.x {
		a, c = min(p.y, q.y), max(p.y, q.y)
	}
	_, end := cell(a, r)
	start, _ := cell(c, r)
	return start < end
}

// between paints the part of a line that lies between the cells of its ends.
func (b *band) between(p, q pt, r float64, k pixel) {
	if p.y == q.y {
		_, x0 := cell(min(p.x, q.x), r)
		x1, _ := cell(max(p.x, q.x), r)
		b.rect(x0, p.y-r, x1, p.y+r, k)
		return
	}
	_, y0 := cell(min(p.y, q.y), r)
	y1, _ := cell(max(p.y, q.y), r)
	b.rect(p.x-r, y0, p.x+r, y1, k)
}

// corner paints the cells of the points i..j, which lie close together, with
// all lines that reach into them.
func (b *band) corner(pts []pt, i, j int, r float64, k pixel, closed bool) {
	lo, hi := box(pts[i : j+1])
	left, _ := cell(lo.x, r)
	top, _ := cell(lo.y, r)
	_, right := cell(hi.x, r)
	_, bottom := cell(hi.y, r)
	x0, y0 := max(0, int(left)), max(b.y0, int(top))
	x1, y1 := min(b.w, int(right)), min(b.y1, int(bottom))
	w, h := x1-x0, y1-y0
	if w <= 0 || h <= 0 {
		return
	}
	mask := b.clearMask(w * h)
	add := func(p, q pt) {
		v := newBar(p, q, r, round)
		v.clip(x0, y0, x1, y1)
		for y := v.y0; y < v.y1; y++ {
			row := mask[(y-y0)*w : (y-y0+1)*w]
			for x := v.x0; x < v.x1; x++ {
				if c := byte(v.cover(x, y)*255 + 0.5); c > row[x-x0] {
					row[x-x0] = c
				}
			}
		}
	}
	for n := max(i, 1); n <= min(j+1, len(pts)-1); n++ {
		add(pts[n-1], pts[n])
	}
	if closed && i == 0 {
		add(pts[len(pts)-2], pts[len(pts)-1])
	}
	b.blendMask(mask, x0, y0, w, h, k)
}
