package draft

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestStrokesAreDrawnByDragging(t *testing.T) {
	pt := geom.Pt
	for _, c := range []struct {
		why      string
		s        schematic.Shape
		from, to geom.Point
		fresh    bool
		points   []geom.Point
		radius   int
	}{
		{"a fresh line from press to release", schematic.Shape{Type: "line", Points: []geom.Point{pt(0, -50), pt(0, 50)}}, pt(25, 0), pt(100, 0), true, []geom.Point{pt(25, 0), pt(100, 0)}, 0},
		{"a fresh circle from its middle", schematic.Shape{Type: "circle", Points: []geom.Point{{}}, Radius: 50}, pt(25, 25), pt(55, 65), true, []geom.Point{pt(25, 25)}, 50},
		{"a point is taken hold of", schematic.Shape{Type: "line", Points: []geom.Point{pt(0, -50), pt(0, 50)}}, pt(3, 48), pt(75, 50), false, []geom.Point{pt(0, -50), pt(75, 50)}, 0},
		{"elsewhere a line goes on", schematic.Shape{Type: "line", Points: []geom.Point{pt(0, -50), pt(0, 50)}}, pt(100, 100), pt(125, 100), false, []geom.Point{pt(0, -50), pt(0, 50), pt(125, 100)}, 0},
		{"and a polygon", schematic.Shape{Type: "polygon", Points: []geom.Point{pt(0, 0), pt(50, 0), pt(50, 50)}}, pt(0, 50), pt(0, 50), false, []geom.Point{pt(0, 0), pt(50, 0), pt(50, 50), pt(0, 50)}, 0},
		{"a rectangle spans anew", schematic.Shape{Type: "rect", Points: []geom.Point{pt(0, 0), pt(50, 50)}}, pt(-100, -100), pt(100, 75), false, []geom.Point{pt(-100, -100), pt(100, 75)}, 0},
		{"a circle gets its radius", schematic.Shape{Type: "circle", Points: []geom.Point{{}}, Radius: 50}, pt(50, 0), pt(75, 0), false, []geom.Point{{}}, 75},
		{"a text moves", schematic.Shape{Type: "text", Points: []geom.Point{{}}}, pt(75, 75), pt(100, 75), true, []geom.Point{pt(100, 75)}, 0},
	} {
		before := append([]geom.Point(nil), c.s.Points...)
		got := Dragged(c.s, c.from, c.to, c.fresh)
		assert.Equal(t, c.points, got.Points, c.why)
		assert.Equal(t, c.radius, got.Radius, c.why)
		assert.Equal(t, before, c.s.Points, "the stroke given stays as it is")
	}
}

func TestOnlyWhatIsDrawnStrokeByStrokeIsDragged(t *testing.T) {
	d := New()
	_, err := d.DragPin(0, geom.Pt(0, 0), geom.Pt(25, 25))
	require.ErrorContains(t, err, "places its pins by itself")
	require.NoError(t, d.SetForm(""))
	at := d.Kind().Pins[1].At
	moved, err := d.DragPin(0, at, at.Add(geom.Pt(51, 0)))
	require.NoError(t, err)
	assert.Equal(t, 1, moved, "the pin that is taken hold of")
	assert.Equal(t, at.Add(geom.Pt(50, 0)), d.Kind().Pins[1].At, "on the grid")
	moved, err = d.DragPin(0, geom.Pt(-500, 0), geom.Pt(-100, 0))
	require.NoError(t, err)
	assert.Equal(t, 0, moved)

	d.AddStroke("circle")
	line := d.Strokes().Len() - 1
	s, ok := d.Stroke(line)
	require.True(t, ok)
	s.Points[0], s.Radius = geom.Pt(25, 0), 35
	require.NoError(t, d.SetStroke(line, s))
	assert.Equal(t, "3.5", d.Strokes().Text(line, 2))
	s.Points[0].X = 3000
	require.ErrorContains(t, d.SetStroke(line, s), "200 mm")
	require.Error(t, d.SetStroke(0, s), "that is another stroke")
	require.Error(t, d.SetStroke(99, s))
}
