package view

import (
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func id(n byte) schematic.ID { return uuid.UUID{15: n} }

// twoLamps is a sheet with two lamps, 100 mm apart, and a wire between them.
func twoLamps() *schematic.Doc {
	lamp := &schematic.Kind{
		Name: "lamp", Prefix: "E",
		Pins: []schematic.Pin{
			{Name: "1", At: geom.Pt(0, -75), Dir: "up"},
			{Name: "2", At: geom.Pt(0, 75), Dir: "down"},
		},
		Sections: []schematic.Section{{Shapes: []schematic.Shape{{Type: "circle", Points: []geom.Point{{}}, Radius: 50}}}},
	}
	d := schematic.New(schematic.NewLibrary(lamp))
	part := func(n byte, name string, x int) *schematic.Part {
		return &schematic.Part{ID: id(n), Name: name, Kind: "lamp",
			Views: []schematic.View{{Sheet: id(1), At: geom.Pt(x, 500)}}}
	}
	items := []schematic.Item{
		&schematic.Sheet{ID: id(1), Name: "One"},
		&schematic.Sheet{ID: id(2), Name: "Two", Order: 1},
		part(3, "E1", 500), part(4, "E2", 1500),
		&schematic.Wire{ID: id(5), Name: "W1", Sheet: id(1), A: schematic.End{Part: id(3), Pin: "1"}, B: schematic.End{Part: id(4), Pin: "1"}},
		&schematic.Note{ID: id(6), Sheet: id(2), At: geom.Pt(100, 100), Text: "ab\nabcd"},
	}
	var puts []schematic.Put
	for _, it := range items {
		puts = append(puts, schematic.Put{Key: it.Key(), Item: it})
	}
	return d.With(puts...)
}

func TestPlaces(t *testing.T) {
	d := twoLamps()
	p, ok := PlaceOf(d, schematic.Key{Type: schematic.TypePart, ID: id(3)}, id(1))
	require.True(t, ok)
	assert.Equal(t, geom.RectOf(geom.Pt(450, 425), geom.Pt(550, 575)), p.Area, "body and pins")
	_, ok = PlaceOf(d, schematic.Key{Type: schematic.TypeInfo}, id(1))
	assert.False(t, ok)
	p, ok = PlaceOf(d, schematic.Key{Type: schematic.TypeNote, ID: id(6)}, id(1))
	require.True(t, ok)
	assert.Equal(t, id(2), p.Sheet, "an item elsewhere says where")
	assert.Equal(t, geom.RectOf(geom.Pt(100, 100), geom.Pt(150, 162)), p.Area)

	assert.Len(t, All(d, id(1)), 3)
	assert.Len(t, All(d, id(2)), 1)
	assert.True(t, Drawn(d, id(9)).Empty())
	assert.True(t, Drawn(d, id(1)).Encloses(geom.RectOf(geom.Pt(450, 425), geom.Pt(1550, 575))))
	assert.True(t, Bounds(d, []schematic.Key{{Type: schematic.TypeNote, ID: id(6)}}, id(1)).Empty())
}
