package export

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"loomwright/schematic/draw"
)

// harness is an invented large drawing: lines and labels evenly over a sheet.
// Four lines of five are horizontal or vertical.
func harness(lines, labels int) *draw.List {
	rnd := rand.New(rand.NewPCG(1, 2))
	b := newSheet(1189, 841)
	grid := func(span float64) float64 { return float64(int(rnd.Float64()*span/2.5)) * 2.5 }
	for i := range lines {
		x, y := grid(1160), grid(820)
		l := 2.5 * float64(2+rnd.IntN(30))
		switch i % 5 {
		case 0, 1:
			b.stroke(draw.InkSymbol, 0.35, poly(x, y, x+l, y))
		case 2, 3:
			b.stroke(draw.InkSymbol, 0.35, poly(x, y, x, y+l))
		default:
			b.stroke(draw.InkSymbol, 0.35, poly(x, y, x+l/2, y+l/3))
		}
	}
	for i := range labels {
		angle := 0.0
		if i%4 == 0 {
			angle = 270
		}
		b.text(grid(1160), grid(820), 2.5, angle, draw.InkFaint, fmt.Sprintf("W%d 1.5", i))
	}
	return &b.list
}

// Budget: 5 ms for a frame of 1600×1000 pixels of a drawing with 10 000 lines
// and 3 000 labels.
func BenchmarkPaint(b *testing.B) {
	l := harness(10_000, 3_000)
	plan := NewPlan(l)
	for _, c := range []struct {
		name string
		zoom float64
		step float64 // zoom factor per frame
	}{
		{"working", 3, 1},      // a fifth of the drawing
		{"overview", 1.345, 1}, // all of it, labels too small to read
		{"labels", 1.7, 1},     // most of it, labels shown
		{"zooming", 3, 1.01},
		{"close", 12, 1},
	} {
		b.Run(c.name, func(b *testing.B) {
			var p Painter
			pal := Light()
			v := View{PxPerMM: c.zoom, W: 1600, H: 1000, Dots: true}
			dx := 0.0
			for b.Loop() {
				dx += 0.7
				if dx > 100 {
					dx, v.PxPerMM = 0, c.zoom
				}
				v.PxPerMM *= c.step
				v.OriginMM = draw.Point{X: 100 + dx, Y: 60}
				if c.name == "overview" {
					v.OriginMM = draw.Point{X: dx / 10}
				}
				p.PaintPlan(p.Frame(v.W, v.H), plan, v, &pal)
			}
		})
	}
}
