package export

import (
	"bytes"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
)

// A plan leaves out only what cannot be seen: with every mark handed to the
// bands, the picture is the same.
func TestPlanChangesNoPixel(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 0))
	for name, l := range map[string]*draw.List{"a real sheet": sample(), "an even crowd": harness(800, 200)} {
		plan, all := NewPlan(l), NewPlan(l)
		for i := range all.marks {
			if all.marks[i].share == 0 { // small fills are painted by what the plan says of them
				all.marks[i].from = 0
				all.marks[i].x0, all.marks[i].y0, all.marks[i].x1, all.marks[i].y1 = -1e9, -1e9, 1e9, 1e9
			}
		}
		for _, exact := range []bool{false, true} {
			for zoom := 0.1; zoom < 60; zoom *= 1.23 {
				v := View{PxPerMM: zoom, OriginMM: draw.Point{X: rnd.Float64() * l.Size.X, Y: rnd.Float64() * l.Size.Y}, W: 300, H: 200, Exact: exact}
				if zoom < 2 {
					v.OriginMM = draw.Point{}
				}
				pal := Light()
				want, got := image.NewRGBA(image.Rect(0, 0, 300, 200)), image.NewRGBA(image.Rect(0, 0, 300, 200))
				var p Painter
				p.PaintPlan(want, all, v, &pal)
				p.PaintPlan(got, plan, v, &pal)
				require.True(t, bytes.Equal(want.Pix, got.Pix), "%s, zoom %g, exact %v", name, zoom, exact)
			}
		}
	}
}

func TestShareOfBox(t *testing.T) {
	box := draw.Box{Min: draw.Point{X: 3, Y: 4}, Max: draw.Point{X: 5, Y: 6}}
	line := func(pts ...draw.Point) []draw.Seg {
		path := []draw.Seg{{Verb: draw.MoveTo, P: pts[0]}}
		for _, p := range pts[1:] {
			path = append(path, draw.Seg{Verb: draw.LineTo, P: p})
		}
		return append(path, draw.Seg{Verb: draw.Close})
	}
	for _, c := range []struct {
		why  string
		path []draw.Seg
		want float64
	}{
		{"a box fills its box", line(box.Min, draw.Point{X: 5, Y: 4}, box.Max, draw.Point{X: 3, Y: 6}), 1},
		{"a triangle fills half, whichever way round", line(box.Min, box.Max, draw.Point{X: 5, Y: 4}), 0.5},
		{"a circle fills π/4", circle(4, 5, 1), math.Pi / 4},
		{"nothing still leaves a trace", line(box.Min, box.Max), 1. / 255},
	} {
		assert.InDelta(t, c.want, float64(shareOf(c.path, box))/255, 0.5/255+1e-3, c.why)
	}
}

func TestPlanLeavesOutWhatCannotBeSeen(t *testing.T) {
	l := sample()
	plan := NewPlan(l)
	count := func(v View) int { return len(plan.visible(nil, place(v), v.W, 0, v.H)) }
	whole := View{PxPerMM: 30, W: 100_000, H: 100_000}
	require.Equal(t, len(l.Marks), count(whole), "close up everything is there")
	whole.PxPerMM = 0.3
	assert.Less(t, count(whole), len(l.Marks)/2, "far away no texts, no stripes, no small strokes")
	assert.Less(t, count(View{PxPerMM: 30, W: 300, H: 300}), len(l.Marks)/4, "a corner")
}
