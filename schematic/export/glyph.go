package export

import (
	"image"
	"image/draw"
	"math"

	sheet "loomwright/schematic/draw"
)

// glyphCache keeps painted glyphs. A glyph's look depends on its size in
// quarter pixels, on the quarter of a pixel where it begins and on its turn.
type glyphCache struct {
	faces map[faceKey]*faceGlyphs
	last  faceKey
	face  *faceGlyphs
	bytes int
}

type faceKey struct {
	quarters uint16 // em size in quarter pixels
	turn     uint8  // quarter turns clockwise
	bold     bool
}

type faceGlyphs struct {
	ascii [128][4]*glyph
	more  map[rune]*[4]*glyph
}

// glyph is a mask and where its top left lies from the pixel of the pen.
type glyph struct {
	dx, dy, w, h int
	mask         []byte
}

// Limits of the cache.
const (
	maxCachedPx   = 96      // larger glyphs are painted as shapes
	maxGlyphBytes = 4 << 20 // of masks, then the cache starts again
	glyphOverhead = 96      // bytes of a glyph beside its mask, roughly
)

// trim empties a cache that has grown too large, as it does while zooming.
func (c *glyphCache) trim() {
	if c.faces == nil || c.bytes > maxGlyphBytes {
		*c = glyphCache{faces: map[faceKey]*faceGlyphs{}}
	}
}

func (c *glyphCache) pick(key faceKey) *faceGlyphs {
	if c.face == nil || c.last != key {
		f := c.faces[key]
		if f == nil {
			f = &faceGlyphs{}
			c.faces[key] = f
		}
		c.face, c.last = f, key
	}
	return c.face
}

// slots returns the places of a rune's four sub-pixel forms.
func (f *faceGlyphs) slots(r rune) *[4]*glyph {
	if r >= 0 && r < 128 {
		return &f.ascii[r]
	}
	s := f.more[r]
	if s == nil {
		if f.more == nil {
			f.more = map[rune]*[4]*glyph{}
		}
		s = &[4]*glyph{}
		f.more[r] = s
	}
	return s
}

// turn is a rotation by quarter turns, clockwise on the sheet.
type turn uint8

// turnOf returns the quarter turn nearest to an angle in degrees.
func turnOf(degrees float64) turn {
	if !finite(degrees) {
		return 0
	}
	return turn(int(math.Round(math.Mod(degrees, 360)/90)+4) % 4)
}

// vec turns a vector.
func (t turn) vec(x, y float64) (float64, float64) {
	switch t {
	case 1:
		return -y, x
	case 2:
		return -x, -y
	case 3:
		return y, -x
	}
	return x, y
}

// drawGlyph rasterises a glyph whose pen stands (fx, fy) into its pixel.
func (b *band) drawGlyph(r rune, bold bool, em float64, t turn, fx, fy float64) *glyph {
	path, _ := sheet.Outline(r, bold)
	to := func(p sheet.Point) pt {
		x, y := t.vec(p.X*em, p.Y*em)
		return pt{x + fx, y + fy}
	}
	lo, hi := extent(path, to)
	if !(lo.x < hi.x && lo.y < hi.y) {
		return &glyph{}
	}
	g := &glyph{dx: floor(lo.x), dy: floor(lo.y)}
	g.w, g.h = ceil(hi.x)-g.dx, ceil(hi.y)-g.dy
	g.mask = make([]byte, g.w*g.h)
	b.raster.Reset(g.w, g.h)
	b.raster.DrawOp = draw.Src
	b.trace(path, func(p sheet.Point) pt {
		q := to(p)
		return pt{q.x - float64(g.dx), q.y - float64(g.dy)}
	}, g.w, g.h, false)
	dst := &image.Alpha{Pix: g.mask, Stride: g.w, Rect: image.Rect(0, 0, g.w, g.h)}
	b.raster.Draw(dst, dst.Rect, image.Opaque, image.Point{})
	return g
}
