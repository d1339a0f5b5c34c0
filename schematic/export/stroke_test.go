package export

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
)

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
