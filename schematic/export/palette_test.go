package export

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
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

// Seen from afar a wire is one pixel wide, without its edges.
func TestWiresAreSeenFromAfar(t *testing.T) {
	for name, p := range palettes {
		for _, code := range schematic.ColorCodes() {
			own, ok := draw.Insulation(code)
			require.True(t, ok)
			assert.Greater(t, difference(p.afar(own), p.Paper()), 18.0, "%s: %s", name, code)
			if difference(own, p.Paper()) > 60 {
				assert.Equal(t, own, p.afar(own), "%s: %s is plain to see as it is", name, code)
			}
		}
		assert.Greater(t, difference(p.afar(p.Inks[draw.InkBare]), p.Paper()), 18.0, "%s: no colour known", name)

		for _, s := range []draw.Stroke{{Ink: draw.InkBare}, {Ink: draw.InkOwn, Color: p.Paper()}} {
			s.Width, s.Path = 0.7, []draw.Seg{{Verb: draw.MoveTo, P: draw.Point{X: 10, Y: 50}}, {Verb: draw.LineTo, P: draw.Point{X: 90, Y: 50}}}
			l := &draw.List{Size: draw.Point{X: 100, Y: 100}, Marks: []draw.Mark{{Bound: draw.Box{Min: draw.Point{X: 9, Y: 49}, Max: draw.Point{X: 91, Y: 51}}, Op: &s}}}
			m := image.NewRGBA(image.Rect(0, 0, 50, 50))
			(&Painter{}).Paint(m, l, View{PxPerMM: 0.5, W: 50, H: 50}, &p)
			assert.Equal(t, p.afar(p.Paper()), m.RGBAAt(25, 25), name)
			m = image.NewRGBA(image.Rect(0, 0, 1000, 1000))
			(&Painter{}).Paint(m, l, View{PxPerMM: 10, W: 1000, H: 1000}, &p)
			assert.Equal(t, p.Paper(), m.RGBAAt(500, 500), "%s: close up the edges show it", name)
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
