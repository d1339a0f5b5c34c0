package ui

import (
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
	"loomwright/ui/view"
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

// fixed finds what a test says.
type fixed struct{ hits []tool.Hit }

func (f fixed) At(draw.Point, float64) []tool.Hit { return f.hits }
func (f fixed) In(draw.Box, bool) []schematic.Key {
	return []schematic.Key{f.hits[0].Key, {Type: schematic.TypePart}}
}
func partKey(n byte) schematic.Key { return schematic.Key{Type: schematic.TypePart, ID: id(n)} }
func sceneWith(d *schematic.Doc, hs ...tool.Hit) scene {
	return scene{Snapshot: d, On: id(1), Find: fixed{hs}, Camera: view.Camera{PxPerMM: 4, W: 100, H: 100}, Scale: 1}
}

func TestSnap(t *testing.T) {
	d := twoLamps()
	require.Empty(t, schematic.Check(d))
	none := sceneWith(d)
	assert.Equal(t, geom.Pt(500, 425), none.Snap(geom.Pt(507, 431), 0), "to the grid")
	assert.Equal(t, geom.Pt(507, 431), none.Snap(geom.Pt(507, 431), tool.ModFree), "free")

	pin := sceneWith(d, tool.Hit{Key: partKey(3), Pin: "2"})
	assert.Equal(t, geom.Pt(500, 575), pin.Snap(geom.Pt(512, 590), 0), "a pin within reach wins")
	assert.Equal(t, geom.Pt(512, 590), pin.Snap(geom.Pt(512, 590), tool.ModFree))

	gone := sceneWith(d, tool.Hit{Key: partKey(9), Pin: "2"}, tool.Hit{Key: partKey(4)})
	assert.Equal(t, partKey(4), gone.Hit(geom.Pt(0, 0)).Key, "what the document lost meanwhile is passed over")
	assert.True(t, gone.Hit(geom.Pt(0, 0)).Ok)
	assert.Len(t, pin.In(geom.RectOf(geom.Pt(0, 0), geom.Pt(10, 10)), true), 1)
	assert.Zero(t, scene{Snapshot: d}.Hit(geom.Pt(0, 0)))
}

func TestReachIsFeltByHand(t *testing.T) {
	s := sceneWith(twoLamps())
	assert.InDelta(t, reach/4.0, s.reachMM(), 1e-9)
	s.Scale, s.Camera.PxPerMM = 2, 8
	assert.InDelta(t, reach/4.0, s.reachMM(), 1e-9, "same paper under the same finger on a dense screen")
}
