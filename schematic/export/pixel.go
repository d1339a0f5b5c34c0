package export

import (
	"encoding/binary"
	"image/color"
	"math"
)

// canvas is the rows y0 ≤ y < y1 of an opaque RGBA picture, w pixels wide.
type canvas struct {
	pix    []byte
	stride int
	w      int
	y0, y1 int
}

// pixel is a colour made ready for blending: straight colour in two pairs of
// channels and a share 0..256 of its own opacity.
type pixel struct {
	rb, ga uint32
	alpha  uint32
}

func ink(c color.RGBA) pixel {
	if c.A == 0 {
		return pixel{}
	}
	r, g, b := uint32(c.R), uint32(c.G), uint32(c.B)
	if a := uint32(c.A); a != 0xff { // undo premultiplication
		r, g, b = min(255, r*255/a), min(255, g*255/a), min(255, b*255/a)
	}
	return pixel{rb: r | b<<16, ga: g | 0xff<<16, alpha: (uint32(c.A)*256 + 127) / 255}
}

// faded returns the colour with its opacity multiplied by a share 0..1.
func (k pixel) faded(share float64) pixel {
	k.alpha = uint32(float64(k.alpha)*share + 0.5)
	return k
}

func (k pixel) word() uint32 { return k.rb | k.ga<<8 }

// cover turns a coverage 0..1 into the blend weight 0..256 of this colour.
func (k pixel) cover(share float64) uint32 {
	return uint32(share*float64(k.alpha) + 0.5)
}

// blend mixes the colour over the pixel at p with weight a of 256.
func blend(p []byte, k pixel, a uint32) {
	_ = p[3]
	d := binary.LittleEndian.Uint32(p)
	i := 256 - a
	rb := ((d&0x00ff00ff)*i + k.rb*a + 0x00800080) >> 8 & 0x00ff00ff
	ga := ((d>>8&0x00ff00ff)*i + k.ga*a + 0x00800080) & 0xff00ff00
	binary.LittleEndian.PutUint32(p, rb|ga)
}

// span blends the pixels x0 ≤ x < x1 of a row.
func (c *canvas) span(y, x0, x1 int, k pixel, a uint32) {
	if x0 >= x1 || a == 0 {
		return
	}
	row := c.pix[y*c.stride+4*x0 : y*c.stride+4*x1]
	if a < 256 {
		for ; len(row) >= 4; row = row[4:] {
			blend(row, k, a)
		}
		return
	}
	word := k.word()
	if len(row) <= 128 {
		for ; len(row) >= 4; row = row[4:] {
			binary.LittleEndian.PutUint32(row, word)
		}
		return
	}
	binary.LittleEndian.PutUint32(row, word)
	for n := 4; n < len(row); n *= 2 {
		copy(row[n:], row[:n])
	}
}

// fill paints all rows.
func (c *canvas) fill(k pixel) {
	if c.y0 >= c.y1 {
		return
	}
	c.span(c.y0, 0, c.w, k, 256)
	first := c.pix[c.y0*c.stride : c.y0*c.stride+4*c.w]
	for y := c.y0 + 1; y < c.y1; y++ {
		copy(c.pix[y*c.stride:y*c.stride+4*c.w], first)
	}
}

// rect paints an axis-parallel rectangle; every pixel gets exactly the share
// of its area that the rectangle covers.
func (c *canvas) rect(x0, y0, x1, y1 float64, k pixel) {
	x0, x1 = max(x0, 0), min(x1, float64(c.w))
	y0, y1 = max(y0, float64(c.y0)), min(y1, float64(c.y1))
	if !(x0 < x1 && y0 < y1) {
		return
	}
	left, right := int(x0), int(math.Ceil(x1)) // columns touched
	leftShare, rightShare := float64(left+1)-x0, x1-float64(right-1)
	if right-left == 1 {
		leftShare = x1 - x0
	}
	for y := int(y0); y < int(math.Ceil(y1)); y++ {
		share := min(float64(y+1), y1) - max(float64(y), y0)
		from, to := left, right
		if leftShare < 1 {
			c.dab(left, y, k, k.cover(leftShare*share))
			from++
		}
		if rightShare < 1 && to > from {
			to--
			c.dab(to, y, k, k.cover(rightShare*share))
		}
		c.span(y, from, to, k, k.cover(share))
	}
}

// dab blends one pixel, which must be inside.
func (c *canvas) dab(x, y int, k pixel, a uint32) {
	if a == 0 {
		return
	}
	i := y*c.stride + 4*x
	blend(c.pix[i:i+4], k, a)
}
