package export

import (
	"math"

	"loomwright/schematic/draw"
)

// text paints one line of text. Glyphs stand on whole pixels across the line
// and on quarter pixels along it; the advance is not rounded, so the width is
// that of draw.Measure.
func (b *band) text(t *draw.Text) {
	em := far(t.Size * b.at.scale)
	pen := b.px(t.At)
	if !(em >= minTextPx) || !finite(pen.x) || !finite(pen.y) {
		return
	}
	k := b.ink(t.Ink, t.Color)
	if k.alpha == 0 {
		return
	}
	dir := turnOf(t.Angle)
	ux, uy := dir.vec(1, 0)
	if em > maxCachedPx {
		b.largeText(t, pen, em, dir, k)
		return
	}
	// As for snap, rounding noise must not decide.
	const bias = 0.005
	if uy == 0 {
		pen = pt{pen.x + bias, math.Round(pen.y + bias)}
	} else {
		pen = pt{math.Round(pen.x + bias), pen.y + bias}
	}
	key := faceKey{quarters: uint16(em*4 + 0.5), turn: uint8(dir), bold: t.Bold}
	face := b.glyphs.pick(key)
	for _, r := range t.S {
		_, advance := draw.Outline(r, t.Bold)
		if r != ' ' {
			b.glyph(face, key, r, pen, k)
		}
		pen.x += ux * advance * em
		pen.y += uy * advance * em
	}
}

// glyph paints one glyph at the pen.
func (b *band) glyph(face *faceGlyphs, key faceKey, r rune, pen pt, k pixel) {
	x, y := math.Floor(pen.x), math.Floor(pen.y)
	quarter := int((pen.x - x + pen.y - y) * 4) // one of the two is whole
	slot := &face.slots(r)[quarter&3]
	if *slot == nil {
		fx, fy := float64(quarter)/4, 0.0
		if key.turn&1 == 1 {
			fx, fy = fy, fx
		}
		*slot = b.drawGlyph(r, key.bold, float64(key.quarters)/4, turn(key.turn), fx, fy)
		b.glyphs.bytes += len((*slot).mask) + glyphOverhead
	}
	b.blendGlyph(*slot, int(x), int(y), k)
}

// blendGlyph blends the part of a glyph that lies inside.
func (b *band) blendGlyph(g *glyph, x, y int, k pixel) {
	x, y = x+g.dx, y+g.dy
	x0, x1 := max(0, -x), min(g.w, b.w-x)
	y0, y1 := max(0, b.y0-y), min(g.h, b.y1-y)
	if x0 >= x1 {
		return
	}
	for j := y0; j < y1; j++ {
		row := b.pix[(y+j)*b.stride+4*(x+x0):]
		for i, m := range g.mask[j*g.w+x0 : j*g.w+x1] {
			if m != 0 {
				blend(row[4*i:4*i+4], k, (uint32(m)*k.alpha+127)/255)
			}
		}
	}
}

// largeText paints text as shapes, too large to be worth keeping.
func (b *band) largeText(t *draw.Text, pen pt, em float64, dir turn, k pixel) {
	ux, uy := dir.vec(1, 0)
	for _, r := range t.S {
		path, advance := draw.Outline(r, t.Bold)
		b.fillWith(path, func(p draw.Point) pt {
			x, y := dir.vec(p.X*em, p.Y*em)
			return pt{far(pen.x + x), far(pen.y + y)}
		}, k)
		pen.x += ux * advance * em
		pen.y += uy * advance * em
	}
}
