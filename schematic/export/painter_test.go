package export

import (
	"image"
	"image/color"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// inkOnly paints black marks on white paper and desk, so that pixels are shares
// of coverage.
func inkOnly() Palette {
	p := Print()
	for i := range p.Inks {
		p.Inks[i] = rgb(0)
	}
	p.Inks[draw.InkPaper] = rgb(0xFFFFFF)
	return p
}

func paint(l *draw.List, v View, pal Palette) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, v.W, v.H))
	(&Painter{}).Paint(img, l, v, &pal)
	return img
}

// coverage returns the share of a pixel that black covers.
func coverage(img *image.RGBA, x, y int) float64 {
	return 1 - float64(img.RGBAAt(x, y).R)/255
}

func TestLevelOfDetail(t *testing.T) {
	count := func(l *draw.List, zoom float64) int {
		img := paint(l, View{PxPerMM: zoom, W: 200, H: 200}, inkOnly())
		n := 0
		for y := range 200 {
			for x := range 200 {
				if coverage(img, x, y) > 0 {
					n++
				}
			}
		}
		return n
	}
	text := &newSheet(100, 100).text(10, 20, 2, 0, draw.InkText, "W12").list
	assert.Zero(t, count(text, 1.9), "text of 3.8 pixels cannot be read")
	assert.NotZero(t, count(text, 2.1), "text of 4.2 pixels")
	detail := &newSheet(100, 100).stroke(draw.InkSymbol, 0.1, poly(10, 10, 13, 10)).list
	assert.Zero(t, count(detail, 1), "a small hairline")
	assert.NotZero(t, count(detail, 3), "the same from closer")
	assert.NotZero(t, count(&newSheet(100, 100).stroke(draw.InkSymbol, 0.1, poly(10, 10, 90, 10)).list, 1), "a long line stays")
}

func TestDotsFade(t *testing.T) {
	pal, empty := Light(), &newSheet(100, 100).list
	dots := func(zoom float64) (n int, strongest float64) {
		img := paint(empty, View{PxPerMM: zoom, W: 100, H: 100, Dots: true}, pal)
		for y := range 100 {
			for x := range 100 {
				if c := img.RGBAAt(x, y); c != pal.Paper() && c != pal.Desk {
					n++
					strongest = max(strongest, difference(c, pal.Paper()))
				}
			}
		}
		return n, strongest
	}
	n, far := dots(0.5)
	assert.Zero(t, n, "every 5 px even the coarse dots are gone (%g)", far)
	n, near := dots(8) // every 20 px: columns and rows at 20, 40, 60, 80 px
	assert.Equal(t, 16, n)
	_, dense := dots(3) // every 7.5 px
	assert.Greater(t, near, 5.0)
	assert.NotZero(t, dense)
}

// The ground that a drawn sheet begins with must not hide its grid.
func TestDotsLieOnTheGroundOfADrawnSheet(t *testing.T) {
	sheet := &schematic.Sheet{ID: schematic.ID{1}, Width: 240, Height: 240} // mm / 10, too small for a frame
	doc := schematic.New(nil).With(schematic.Put{Key: sheet.Key(), Item: sheet})
	drawn := draw.Sheet(doc, sheet.ID, draw.Options{})
	require.Len(t, drawn.Marks, 1, "the ground alone")
	for _, exact := range []bool{false, true} {
		v, pal := View{PxPerMM: 8, W: 200, H: 200, Dots: true, Exact: exact}, Light()
		want := paint(&draw.List{Size: drawn.Size}, v, pal)
		assert.Equal(t, want.Pix, paint(drawn, v, pal).Pix, "exact: %v", exact)
	}
}

func TestPaintInTilesEqualsPaintWhole(t *testing.T) {
	l, pal := sample(), Light()
	for _, exact := range []bool{false, true} {
		const w, h, zoom = 700, 500, 3.2
		v := View{PxPerMM: zoom, OriginMM: draw.Point{X: 2, Y: 1}, W: w, H: h, Dots: true, Exact: exact}
		whole := paint(l, v, pal)
		worst := 0
		for y := 0; y < h; y += 125 {
			for x := 0; x < w; x += 100 {
				part := v
				part.OriginMM = draw.Point{X: v.OriginMM.X + float64(x)/zoom, Y: v.OriginMM.Y + float64(y)/zoom}
				part.W, part.H = 100, 125
				img := paint(l, part, pal)
				for j := range 125 {
					for i := range 100 {
						worst = max(worst, apart(img.RGBAAt(i, j), whole.RGBAAt(x+i, y+j)))
					}
				}
			}
		}
		assert.LessOrEqual(t, worst, 6, "of 255; the rasteriser of curves rounds differently by size (exact %v)", exact)
	}
}

// apart is the largest difference of two colours' channels.
func apart(a, b color.RGBA) int {
	d := func(x, y uint8) int { return max(int(x)-int(y), int(y)-int(x)) }
	return max(d(a.R, b.R), d(a.G, b.G), d(a.B, b.B), d(a.A, b.A))
}

func TestFrameIsTightAndReused(t *testing.T) {
	var p Painter
	a := p.Frame(30, 20)
	first := &a.Pix[0]
	b := p.Frame(20, 20)
	assert.Same(t, first, &b.Pix[0])
	assert.Equal(t, image.Rect(0, 0, 20, 20), b.Rect)
	assert.Equal(t, 80, b.Stride)
	assert.Len(t, b.Pix, 1600)
	assert.Empty(t, p.Frame(-1, 5).Pix)
}

func TestPaintStaysInside(t *testing.T) {
	pal := Light()
	big := image.NewRGBA(image.Rect(0, 0, 60, 60))
	inner := big.SubImage(image.Rect(10, 10, 40, 40)).(*image.RGBA)
	(&Painter{}).Paint(inner, sample(), View{PxPerMM: 1, W: 1000, H: 1000}, &pal)
	for y := range 60 {
		for x := range 60 {
			in := x >= 10 && x < 40 && y >= 10 && y < 40
			require.Equal(t, in, big.RGBAAt(x, y).A == 255, "pixel %d, %d", x, y)
		}
	}
	(&Painter{}).Paint(big, sample(), View{PxPerMM: 1}, &pal) // no size: nothing to do
	(&Painter{}).Paint(big, nil, View{PxPerMM: math.NaN(), W: 60, H: 60}, &pal)
	assert.Equal(t, pal.Desk, big.RGBAAt(5, 5), "without a sheet there is the desk")
}

func TestTextInkLiesInItsBox(t *testing.T) {
	for _, s := range []string{"W12 1.5 mm² BU/RD", "ÅÄÖ jgpq", "\u2126 Ω µA °C − \U0001F50C|"} {
		for _, bold := range []bool{false, true} {
			for _, angle := range []float64{0, 90, 180, 270} {
				for _, zoom := range []float64{2, 5.3, 33} { // kept glyphs and large ones
					text := &draw.Text{At: draw.Point{X: 32, Y: 32}, Size: 3, Angle: angle, Bold: bold, Ink: draw.InkText, S: s}
					l := &newSheet(64, 64).add(text).list
					img := paint(l, View{PxPerMM: zoom, W: int(64 * zoom), H: int(64 * zoom)}, inkOnly())
					box := textBox(text)
					// Glyphs move by up to a pixel to stand crisply.
					lo := func(v float64) int { return int(math.Floor(v*zoom)) - 1 }
					hi := func(v float64) int { return int(math.Ceil(v*zoom)) + 1 }
					inked := 0
					for y := range img.Rect.Dy() {
						for x := range img.Rect.Dx() {
							if coverage(img, x, y) == 0 {
								continue
							}
							inked++
							require.True(t, x >= lo(box.Min.X) && x < hi(box.Max.X) && y >= lo(box.Min.Y) && y < hi(box.Max.Y),
								"%q bold %v at %g°, zoom %g: ink at %d, %d outside %v", s, bold, angle, zoom, x, y, box)
						}
					}
					require.NotZero(t, inked)
				}
			}
		}
	}
}

func TestFramesDoNotAllocate(t *testing.T) {
	l, pal := harness(2000, 500), Light()
	plan := NewPlan(l)
	var p Painter
	v := View{PxPerMM: 3, OriginMM: draw.Point{X: 100, Y: 100}, W: 800, H: 600, Dots: true}
	frame := func() { p.PaintPlan(p.Frame(v.W, v.H), plan, v, &pal) }
	frame() // fills the caches
	assert.Zero(t, testing.AllocsPerRun(20, frame), "on one processor")

	frame()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for range 50 {
		frame()
	}
	runtime.ReadMemStats(&after)
	assert.Less(t, after.Mallocs-before.Mallocs, uint64(50*4), "on all processors, 50 frames")
}

func TestBandsAgree(t *testing.T) {
	l, pal := sample(), Dark()
	v := View{PxPerMM: 4, W: 840, H: 592}
	before := runtime.GOMAXPROCS(1)
	one := paint(l, v, pal)
	runtime.GOMAXPROCS(5)
	five := paint(l, v, pal)
	runtime.GOMAXPROCS(before)
	worst := 0
	for y := range v.H {
		for x := range v.W {
			worst = max(worst, apart(one.RGBAAt(x, y), five.RGBAAt(x, y)))
		}
	}
	assert.LessOrEqual(t, worst, 6)
}

func TestFrameGoesWithItsText(t *testing.T) {
	frame := draw.Mark{
		Op:    &draw.Fill{Path: []draw.Seg{{Verb: draw.MoveTo, P: draw.Point{X: 10, Y: 10}}, {Verb: draw.LineTo, P: draw.Point{X: 40, Y: 10}}, {Verb: draw.LineTo, P: draw.Point{X: 40, Y: 40}}, {Verb: draw.Close}}, Ink: draw.InkSymbol},
		Bound: draw.Box{Min: draw.Point{X: 10, Y: 10}, Max: draw.Point{X: 40, Y: 40}},
		With:  2,
	}
	pal := Light()
	ink := pal.Color(draw.InkSymbol, color.RGBA{})
	for _, c := range []struct {
		pxPerMM float64
		want    bool
		why     string
	}{
		{1.9, false, "2 mm text at 3.8 px cannot be read: an empty frame would only be in the way"},
		{2.1, true, "at 4.2 px the text is there and so is its frame"},
	} {
		var p Painter
		dst := p.Frame(100, 100)
		p.Paint(dst, &draw.List{Size: draw.Point{X: 50, Y: 50}, Marks: []draw.Mark{frame}}, View{PxPerMM: c.pxPerMM, W: 100, H: 100}, &pal)
		at := int(35 * c.pxPerMM)
		require.Equal(t, c.want, dst.RGBAAt(at, int(15*c.pxPerMM)) == ink, c.why)
	}
}
