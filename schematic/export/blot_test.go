package export

import (
	"image"
	"image/color"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// Two symbols of one part, of lines too thin to be painted from afar.
func TestPartsAreSeenFromAfar(t *testing.T) {
	part := schematic.Key{Type: schematic.TypePart, ID: uuid.New()}
	l := &draw.List{Size: draw.Point{X: 200, Y: 200}}
	for _, x := range []float64{30, 130} {
		for _, dx := range []float64{0, 10} {
			a, b := draw.Point{X: x + dx, Y: 40}, draw.Point{X: x + dx, Y: 52}
			l.Marks = append(l.Marks, draw.Mark{Owner: part, Bound: draw.Box{Min: a, Max: b},
				Op: &draw.Stroke{Path: []draw.Seg{{Verb: draw.MoveTo, P: a}, {Verb: draw.LineTo, P: b}}, Width: 0.25}})
		}
	}
	plan, pal := NewPlan(l), Light()
	require.Len(t, plan.blots, 2)
	at := func(plan *Plan, pxPerMM float64, exact bool, x, y float64) color.RGBA {
		m := image.NewRGBA(image.Rect(0, 0, int(200*pxPerMM), int(200*pxPerMM)))
		(&Painter{}).PaintPlan(m, plan, View{PxPerMM: pxPerMM, W: m.Rect.Dx(), H: m.Rect.Dy(), Exact: exact}, &pal)
		return m.RGBAAt(int(x*pxPerMM), int(y*pxPerMM))
	}
	for _, x := range []float64{35, 135} {
		assert.Greater(t, difference(at(plan, 0.5, false, x, 46), pal.Paper()), 15.0)
		assert.Equal(t, pal.Paper(), at(plan, 2, false, x, 46), "close up there are the lines")
		assert.Equal(t, pal.Paper(), at(plan, 0.5, true, x, 46), "paper always has the lines")
	}
	assert.Equal(t, pal.Paper(), at(plan, 0.5, false, 85, 46), "between the symbols is nothing")
	gone := plan.Patched(map[schematic.Key]bool{part: true}, &draw.List{})
	assert.Equal(t, pal.Paper(), at(gone, 0.5, false, 35, 46), "a part that is taken away takes its blot along")
}

// A fuse's lead is long enough to be painted from where its body is not; the
// body's filling would leave but a hole in the wire.
func TestAPartWithALongLeadIsABlotToo(t *testing.T) {
	part := schematic.Key{Type: schematic.TypePart, ID: uuid.New()}
	l := &draw.List{Size: draw.Point{X: 200, Y: 200}}
	line := func(pts ...draw.Point) {
		s, b := &draw.Stroke{Width: 0.25}, draw.Box{Min: pts[0], Max: pts[0]}
		for i, p := range pts {
			s.Path = append(s.Path, draw.Seg{Verb: draw.Verb(min(i, 1)), P: p})
			b = b.Union(draw.Box{Min: p, Max: p})
		}
		l.Marks = append(l.Marks, draw.Mark{Owner: part, Bound: b, Op: s})
	}
	line(draw.Point{X: 50, Y: 40}, draw.Point{X: 50, Y: 55})
	body := [4]draw.Point{{X: 46, Y: 44}, {X: 54, Y: 44}, {X: 54, Y: 51}, {X: 46, Y: 51}}
	for i, p := range body {
		line(p, body[(i+1)%4])
	}
	at := func(pxPerMM float64) bool { // is there something off the lead
		pal := Light()
		m := image.NewRGBA(image.Rect(0, 0, 200, 200))
		(&Painter{}).Paint(m, l, View{PxPerMM: pxPerMM, W: 200, H: 200}, &pal)
		return m.RGBAAt(int(48.5*pxPerMM), int(47*pxPerMM)) != pal.Paper()
	}
	assert.True(t, at(0.4), "nothing of it is painted")
	assert.True(t, at(0.7), "the lead is, the body is not")
	assert.False(t, at(3), "all of it is")
	wide := [5]draw.Point{{X: 40, Y: 43}, {X: 60, Y: 43}, {X: 60, Y: 53}, {X: 40, Y: 53}, {X: 40, Y: 43}}
	line(wide[:]...)
	assert.False(t, at(0.7), "an outline that is painted shows a part, whatever small lines are not")
}
