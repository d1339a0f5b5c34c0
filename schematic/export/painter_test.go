package export

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
	(&Painter{}).Paint(img, l, nil, v, &pal)
	return img
}

// coverage returns the share of a pixel that black covers.
func coverage(img *image.RGBA, x, y int) float64 {
	return 1 - float64(img.RGBAAt(x, y).R)/255
}

func between(a0, a1, b0, b1 float64) float64 { return max(0, min(a1, b1)-max(a0, b0)) }

func TestAxisParallelLinesCoverExactly(t *testing.T) {
	for _, c := range []struct {
		why             string
		x0, x1, y, wide float64
	}{
		{"on pixel edges", 5, 35, 10, 2},
		{"a third of a pixel off", 5, 35, 10.33, 2},
		{"thin", 5, 35, 12.71, 1},
		{"thick, round ends", 8, 35, 15.2, 7.5},
		{"thick on half pixels", 8, 35, 15.5, 9},
	} {
		for _, upright := range []bool{false, true} {
			path := poly(c.x0, c.y, c.x1, c.y)
			if upright {
				path = poly(c.y, c.x0, c.y, c.x1)
			}
			l := &newSheet(40, 40).stroke(draw.InkSymbol, c.wide, path).list
			img := paint(l, View{PxPerMM: 1, W: 40, H: 40, Exact: true}, inkOnly())
			for along := int(c.x0 + c.wide + 1); along < int(c.x1-c.wide-1); along++ { // away from the ends
				for across := range 40 {
					want := between(float64(across), float64(across+1), c.y-c.wide/2, c.y+c.wide/2)
					x, y := along, across
					if upright {
						x, y = y, x
					}
					require.InDelta(t, want, coverage(img, x, y), 0.006, "%s: pixel %d, %d", c.why, x, y)
				}
			}
		}
	}
}

func TestFilledRectanglesCoverExactly(t *testing.T) {
	const x0, y0, x1, y1 = 3.25, 4.6, 9.8, 4.9
	l := &newSheet(20, 20).fill(draw.InkSymbol, closed(poly(x0, y0, x1, y0, x1, y1, x0, y1))).list
	img := paint(l, View{PxPerMM: 1, W: 20, H: 20, Exact: true}, inkOnly())
	for y := range 20 {
		for x := range 20 {
			want := between(float64(x), float64(x+1), x0, x1) * between(float64(y), float64(y+1), y0, y1)
			require.InDelta(t, want, coverage(img, x, y), 0.006, "pixel %d, %d", x, y)
		}
	}
}

// distance returns how far a place is from a polyline.
func distance(xy []float64, x, y float64) float64 {
	best := math.Inf(1)
	for i := 0; i+3 < len(xy); i += 2 {
		ax, ay, dx, dy := xy[i], xy[i+1], xy[i+2]-xy[i], xy[i+3]-xy[i+1]
		share := 0.0
		if n := dx*dx + dy*dy; n > 0 {
			share = max(0, min(1, ((x-ax)*dx+(y-ay)*dy)/n))
		}
		best = min(best, math.Hypot(x-ax-share*dx, y-ay-share*dy))
	}
	return best
}

// sampled counts which of 16×16 places in each pixel lie within r of a line:
// the definition of a stroke with round caps and joins.
func sampled(xy []float64, r float64, x, y int) float64 {
	n := 0
	for i := range 16 {
		for j := range 16 {
			if distance(xy, float64(x)+(float64(i)+0.5)/16, float64(y)+(float64(j)+0.5)/16) <= r {
				n++
			}
		}
	}
	return float64(n) / 256
}

func TestStrokesMatchSampling(t *testing.T) {
	for _, c := range []struct {
		why  string
		wide float64
		xy   []float64
	}{
		{"slanted", 3, []float64{5.3, 6.1, 33.7, 21.9}},
		{"steep", 1, []float64{8.2, 4, 12.9, 35}},
		{"corner", 8, []float64{8, 8, 30, 8, 30, 30}},
		{"corner off the grid", 5.3, []float64{8.37, 8.81, 30.12, 8.81, 30.12, 30.6}},
		{"short step", 6, []float64{6, 12, 18, 12, 18, 15, 34, 15}},
		{"frame", 4.4, []float64{8.3, 8.3, 31, 8.3, 31, 30, 8.3, 30, 8.3, 8.3}},
		{"zigzag", 2.4, []float64{4, 20, 9, 10, 14, 30, 19, 10, 24, 30, 29, 20}},
		{"mixed", 4, []float64{4, 8, 25, 8, 34, 17, 34, 36}},
		{"dot", 7, []float64{20.3, 20.4, 20.3, 20.4}},
	} {
		l := &newSheet(40, 40).stroke(draw.InkSymbol, c.wide, poly(c.xy...)).list
		img := paint(l, View{PxPerMM: 1, W: 40, H: 40, Exact: true}, inkOnly())
		for y := range 40 {
			for x := range 40 {
				// The distance of an edge gives the share of a pixel that it
				// cuts at an angle to within an eighth. In the crook of a
				// corner, and at thin ends, two edges cut the same pixel.
				tolerance := 0.14
				for i := 0; i < len(c.xy); i += 2 {
					if math.Hypot(float64(x)+0.5-c.xy[i], float64(y)+0.5-c.xy[i+1]) < 1.5*c.wide+1 {
						tolerance = 0.35
					}
				}
				require.InDelta(t, sampled(c.xy, c.wide/2, x, y), coverage(img, x, y), tolerance, "%s: pixel %d, %d", c.why, x, y)
			}
		}
	}
}

// A line's ink is its length times its width, plus its round ends.
func TestSlantedLinesHaveTheRightWeight(t *testing.T) {
	for angle := 3.0; angle < 90; angle += 7 {
		sin, cos := math.Sincos(angle * math.Pi / 180)
		l := &newSheet(80, 80).stroke(draw.InkSymbol, 2, poly(10, 10, 10+50*cos, 10+50*sin)).list
		img := paint(l, View{PxPerMM: 1, W: 80, H: 80, Exact: true}, inkOnly())
		sum := 0.0
		for y := range 80 {
			for x := range 80 {
				sum += coverage(img, x, y)
			}
		}
		assert.InEpsilon(t, 50*2+math.Pi, sum, 0.03, "%g°", angle)
	}
}

func TestMirroredLinesAreMirrored(t *testing.T) {
	const n = 41
	a := &newSheet(n, n).stroke(draw.InkSymbol, 2.3, poly(5.2, 7.1, 33.4, 22.8)).list
	b := &newSheet(n, n).stroke(draw.InkSymbol, 2.3, poly(n-5.2, 7.1, n-33.4, 22.8)).list
	c := &newSheet(n, n).stroke(draw.InkSymbol, 2.3, poly(7.1, 5.2, 22.8, 33.4)).list
	v := View{PxPerMM: 1, W: n, H: n, Exact: true}
	ia, ib, ic := paint(a, v, inkOnly()), paint(b, v, inkOnly()), paint(c, v, inkOnly())
	for y := range n {
		for x := range n {
			require.InDelta(t, coverage(ia, x, y), coverage(ib, n-1-x, y), 0.005, "left and right")
			require.InDelta(t, coverage(ia, x, y), coverage(ic, y, x), 0.005, "across the diagonal")
		}
	}
}

func TestCirclesMatchTheirArea(t *testing.T) {
	for _, r := range []float64{2, 5.5, 17} {
		disc := &newSheet(40, 40).fill(draw.InkSymbol, circle(20, 20, r)).list
		ring := &newSheet(40, 40).stroke(draw.InkSymbol, 1.5, circle(20, 20, r)).list
		v := View{PxPerMM: 1, W: 40, H: 40, Exact: true}
		area := func(l *draw.List) (sum float64) {
			img := paint(l, v, inkOnly())
			for y := range 40 {
				for x := range 40 {
					sum += coverage(img, x, y)
				}
			}
			return sum
		}
		assert.InEpsilon(t, math.Pi*r*r, area(disc), 0.02, "disc of %g", r)
		assert.InEpsilon(t, 2*math.Pi*r*1.5, area(ring), 0.02, "ring of %g", r)
	}
}

func TestLinesAreCrispUnlessExact(t *testing.T) {
	l := &newSheet(100, 100).stroke(draw.InkSymbol, 0.25, poly(10, 10, 50, 10, 50, 50)).list
	for zoom := 1.0; zoom < 4; zoom += 0.37 {
		img := paint(l, View{PxPerMM: zoom, OriginMM: draw.Point{X: 0.123, Y: 3.21}, W: 200, H: 200}, inkOnly())
		column, rows := int(30*zoom), 0
		for y := range 200 {
			if c := coverage(img, column, y); c > 0 {
				rows++
				assert.Equal(t, 1.0, c, "zoom %g", zoom)
			}
		}
		assert.Equal(t, 1, rows, "zoom %g: a thin line is one pixel wide, never less", zoom)
	}
}

func TestDashes(t *testing.T) {
	b := newSheet(40, 10)
	b.add(&draw.Stroke{Path: poly(2, 5, 38, 5), Width: 2, Ink: draw.InkSymbol, Dash: []float64{4, 3}, Offset: 1})
	img := paint(&b.list, View{PxPerMM: 1, W: 40, H: 10, Exact: true}, inkOnly())
	for x := range 40 {
		want := 0.0
		if at := math.Mod(float64(x)-2+1, 7); x >= 2 && x < 38 && at < 4 {
			want = 1
		}
		assert.InDelta(t, want, coverage(img, x, 4), 0.005, "column %d", x)
	}
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

func TestQueryFindsWhatIsVisible(t *testing.T) {
	l, pal := harness(800, 200), Light()
	ix := newGrid(l)
	for _, zoom := range []float64{0.7, 3, 20} {
		v := View{PxPerMM: zoom, OriginMM: draw.Point{X: 311, Y: 207}, W: 300, H: 200}
		all, some := image.NewRGBA(image.Rect(0, 0, 300, 200)), image.NewRGBA(image.Rect(0, 0, 300, 200))
		var p Painter
		p.Paint(all, l, nil, v, &pal)
		p.Paint(some, l, ix, v, &pal)
		assert.Equal(t, all.Pix, some.Pix, "zoom %g", zoom)
	}
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
	(&Painter{}).Paint(inner, sample(), nil, View{PxPerMM: 1, W: 1000, H: 1000}, &pal)
	for y := range 60 {
		for x := range 60 {
			in := x >= 10 && x < 40 && y >= 10 && y < 40
			require.Equal(t, in, big.RGBAAt(x, y).A == 255, "pixel %d, %d", x, y)
		}
	}
	(&Painter{}).Paint(big, sample(), nil, View{PxPerMM: 1}, &pal) // no size: nothing to do
	(&Painter{}).Paint(big, nil, nil, View{PxPerMM: math.NaN(), W: 60, H: 60}, &pal)
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
	ix := newGrid(l)
	var p Painter
	v := View{PxPerMM: 3, OriginMM: draw.Point{X: 100, Y: 100}, W: 800, H: 600, Dots: true}
	frame := func() { p.Paint(p.Frame(v.W, v.H), l, ix, v, &pal) }
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

// wild makes lists that no sheet should hold.
func wild(rnd *rand.Rand) *draw.List {
	values := []float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 1e-300, 1e9, -1e9, math.MaxFloat64}
	number := func() float64 {
		if rnd.IntN(3) == 0 {
			return values[rnd.IntN(len(values))]
		}
		return rnd.Float64()*400 - 100
	}
	point := func() draw.Point { return draw.Point{X: number(), Y: number()} }
	path := func() (out []draw.Seg) {
		for range rnd.IntN(8) {
			out = append(out, draw.Seg{Verb: draw.Verb(rnd.IntN(6)), C1: point(), C2: point(), P: point()})
		}
		return out
	}
	tint := func() color.RGBA {
		return color.RGBA{uint8(rnd.IntN(256)), uint8(rnd.IntN(256)), uint8(rnd.IntN(256)), uint8(rnd.IntN(256))}
	}
	l := &draw.List{Size: point()}
	texts := []string{"", "W1", "\xff\xfe", "a\x00b\nc", "𝄞 Ω \u2126", "\u202e<&>\"'"}
	for range rnd.IntN(40) {
		var op draw.Op
		ink := draw.Ink(rnd.IntN(int(draw.InkCount) + 3))
		switch rnd.IntN(7) {
		case 0, 1, 2:
			s := &draw.Stroke{Path: path(), Width: number(), Ink: ink, Color: tint(), Offset: number()}
			for range rnd.IntN(4) {
				s.Dash = append(s.Dash, number())
			}
			op = s
		case 3, 4:
			op = &draw.Fill{Path: path(), Ink: ink, Color: tint()}
		case 5:
			op = &draw.Text{At: point(), Angle: number(), Size: number(), Bold: rnd.IntN(2) == 0, Ink: ink, Color: tint(), S: texts[rnd.IntN(len(texts))]}
		default:
			op = []draw.Op{nil, (*draw.Stroke)(nil), (*draw.Fill)(nil), (*draw.Text)(nil)}[rnd.IntN(4)]
		}
		bound := draw.Box{Min: point(), Max: point()}
		if rnd.IntN(2) == 0 {
			bound = draw.Box{Min: draw.Point{X: -1e300, Y: -1e300}, Max: draw.Point{X: 1e300, Y: 1e300}}
		}
		l.Marks = append(l.Marks, draw.Mark{Op: op, Bound: bound})
	}
	return l
}

func FuzzPaint(f *testing.F) {
	for i := range uint64(100) {
		f.Add(i, 1.0, 0.0, 0.0)
	}
	f.Add(uint64(1), math.NaN(), 1e300, -1e300)
	f.Add(uint64(2), 1e300, 0.0, 5.0)
	f.Add(uint64(3), 1e-300, 7.0, 5.0)
	f.Add(uint64(4), 900.0, 100.0, 50.0)
	f.Fuzz(func(t *testing.T, seed uint64, zoom, x, y float64) {
		l, pal := wild(rand.New(rand.NewPCG(seed, 1))), Dark()
		v := View{PxPerMM: zoom, OriginMM: draw.Point{X: x, Y: y}, W: 200, H: 150, Dots: seed%2 == 0, Exact: seed%3 == 0}
		img := paint(l, v, pal)
		for i := 3; i < len(img.Pix); i += 4 {
			if img.Pix[i] != 255 {
				t.Fatal(fmt.Errorf("seed %d: pixel %d is not opaque", seed, i/4))
			}
		}
	})
}
