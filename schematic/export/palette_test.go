package export

import (
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/schematic/draw"
)

// contrast is the contrast ratio of WCAG 2.2, section "relative luminance".
func contrast(a, b color.RGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c color.RGBA) float64 {
	l := linear(c)
	return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2]
}

func linear(c color.RGBA) (out [3]float64) {
	for i, v := range []uint8{c.R, c.G, c.B} {
		s := float64(v) / 255
		if s <= 0.04045 {
			out[i] = s / 12.92
		} else {
			out[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return out
}

// lab turns sRGB into CIE L*a*b*, white point D65 (IEC 61966-2-1, CIE 15).
func lab(c color.RGBA) [3]float64 {
	l := linear(c)
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	x := f((0.4124*l[0] + 0.3576*l[1] + 0.1805*l[2]) / 0.9505)
	y := f(0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2])
	z := f((0.0193*l[0] + 0.1192*l[1] + 0.9505*l[2]) / 1.089)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func difference(a, b color.RGBA) float64 {
	p, q := lab(a), lab(b)
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

var palettes = map[string]Palette{"light": Light(), "dark": Dark(), "print": Print()}

func TestContrastFormula(t *testing.T) {
	assert.InDelta(t, 21, contrast(rgb(0), rgb(0xFFFFFF)), 0.001, "WCAG 2.2: black on white")
	assert.InDelta(t, 4.48, contrast(rgb(0x777777), rgb(0xFFFFFF)), 0.01, "the grey that just fails on white")
}

// WCAG 2.2: 4.5 for text (1.4.3), 3 for lines that carry meaning (1.4.11).
func TestPaletteContrast(t *testing.T) {
	text := []draw.Ink{draw.InkText, draw.InkFaint, draw.InkSymbol, draw.InkError, draw.InkWarn, draw.InkInfo, draw.InkCurrent}
	// A rim that stands out lets a wire of any colour read.
	lines := []draw.Ink{draw.InkSymbol, draw.InkFrame, draw.InkWireRim, draw.InkJoint, draw.InkTrace}
	for name, p := range palettes {
		for _, under := range []draw.Ink{draw.InkPaper, draw.InkFill} {
			for _, i := range text {
				assert.GreaterOrEqual(t, contrast(p.Inks[i], p.Inks[under]), 4.5, "%s: text ink %d on %d", name, i, under)
			}
			for _, i := range lines {
				assert.GreaterOrEqual(t, contrast(p.Inks[i], p.Inks[under]), 3.0, "%s: line ink %d on %d", name, i, under)
			}
		}
	}
}

func TestPaletteInksAreDistinct(t *testing.T) {
	meaning := []draw.Ink{draw.InkSymbol, draw.InkError, draw.InkWarn, draw.InkInfo, draw.InkTrace, draw.InkCurrent}
	for name, p := range palettes {
		for i, a := range meaning {
			for _, b := range meaning[i+1:] {
				assert.Greater(t, difference(p.Inks[a], p.Inks[b]), 18.0, "%s: inks %d and %d look alike", name, a, b)
			}
		}
		for i, c := range p.Inks {
			if draw.Ink(i) != draw.InkOwn {
				assert.EqualValues(t, 255, c.A, "%s: ink %d is not opaque or not set", name, i)
			}
		}
	}
	assert.Greater(t, luminance(Light().Inks[draw.InkPaper]), 0.85)
	assert.Less(t, luminance(Dark().Inks[draw.InkPaper]), 0.05)
	assert.Equal(t, rgb(0xFFFFFF), Print().Inks[draw.InkPaper])
}

func TestPaletteColor(t *testing.T) {
	p, own := Light(), color.RGBA{1, 2, 3, 255}
	assert.Equal(t, p.Inks[draw.InkTrace], p.Color(draw.InkTrace, own))
	assert.Equal(t, own, p.Color(draw.InkOwn, own))
	assert.Equal(t, own, p.Color(draw.InkCount+7, own), "an unknown ink must not panic")
}
