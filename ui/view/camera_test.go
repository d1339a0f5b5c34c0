package view

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
)

func box(x0, y0, x1, y1 float64) draw.Box {
	return draw.Box{Min: draw.Point{X: x0, Y: y0}, Max: draw.Point{X: x1, Y: y1}}
}

// A seeded walk over cameras: the laws below hold at every step.
func TestCameraLaws(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	c := Camera{W: 1200, H: 800}.Fit(box(0, 0, 420, 297), 20)
	for range 2000 {
		at := draw.Point{X: rnd.Float64() * 1200, Y: rnd.Float64() * 800}
		held := c.ToMM(at)

		z := c.Zoom(0.2+3*rnd.Float64(), at)
		assert.InDelta(t, held.X, z.ToMM(at).X, 1e-6, "zoom keeps the place under the pointer")
		assert.InDelta(t, held.Y, z.ToMM(at).Y, 1e-6)
		assert.True(t, z.PxPerMM >= MinPxPerMM && z.PxPerMM <= MaxPxPerMM, "zoom %g within limits", z.PxPerMM)

		back := z.ToPx(z.ToMM(at))
		assert.InDelta(t, at.X, back.X, 1e-6, "pixel → mm → pixel")
		assert.InDelta(t, at.Y, back.Y, 1e-6)

		dx, dy := rnd.Float64()*300-150, rnd.Float64()*300-150
		p := z.Pan(dx, dy)
		was, is := z.ToPx(held), p.ToPx(held)
		assert.InDelta(t, dx, is.X-was.X, 1e-6, "pan moves the drawing by the pixels asked for")
		assert.InDelta(t, dy, is.Y-was.Y, 1e-6)
		assert.Equal(t, p.PxPerMM, z.PxPerMM)
		c = p.Keep(box(0, 0, 420, 297))
		v := c.Visible()
		assert.True(t, v.Max.X > 0 && v.Min.X < 420 && v.Max.Y > 0 && v.Min.Y < 297, "the sheet stays in sight: %v", v)
	}
}

func TestFitShowsTheBoxCentred(t *testing.T) {
	for _, b := range []draw.Box{box(0, 0, 420, 297), box(10, 10, 11, 200), box(-50, 5, 300, 6), box(3, 3, 3, 3)} {
		c := Camera{W: 1000, H: 700}.Fit(b, 30)
		assert.True(t, c.Shows(b), "%v", b)
		mid := c.ToPx(draw.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2})
		assert.InDelta(t, 500, mid.X, 1e-6)
		assert.InDelta(t, 350, mid.Y, 1e-6)
	}
}

func TestResizeKeepsTheMiddle(t *testing.T) {
	c := Camera{W: 1000, H: 700}.Fit(box(0, 0, 420, 297), 0)
	mid := c.ToMM(draw.Point{X: 500, Y: 350})
	d := c.Resize(640, 900)
	got := d.ToMM(draw.Point{X: 320, Y: 450})
	assert.InDelta(t, mid.X, got.X, 1e-9)
	assert.InDelta(t, mid.Y, got.Y, 1e-9)
}

func TestDegenerateCameras(t *testing.T) {
	var none Camera
	assert.Equal(t, geom.Point{}, none.At(draw.Point{X: 5, Y: 5}))
	assert.Equal(t, none, none.Pan(3, 3))
	c := Camera{}.Fit(box(0, 0, 10, 10), 50) // a window that has no size yet
	assert.Positive(t, c.PxPerMM)
	far := Camera{PxPerMM: MinPxPerMM, Origin: draw.Point{X: 1e7}, W: 10, H: 10}
	assert.True(t, far.At(draw.Point{}).InRange(), "never a point no document may hold")
	same := c.ZoomTo(0, draw.Point{})
	assert.Equal(t, c, same)
}
