package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestAListOfWiresIsDrawn(t *testing.T) {
	b := newBench(t)
	require.NoError(t, b.Do("sheet", func(tx *Tx) error { return AddSheet(tx, "Dash") }))
	sheets := b.Doc().Sheets()
	place := func(kind string, x, y int, sheet schematic.ID) {
		require.NoError(t, b.Do("place", func(tx *Tx) error { return PlacePart(tx, kind, sheet, geom.Pt(x, y), geom.Orient{}) }))
	}
	place("fuse", 500, 1000, sheets[0].ID)
	place("lamp", 1000, 1000, sheets[0].ID)
	place("stud", 1500, 1500, sheets[1].ID)
	place("unit", 800, 1000, sheets[1].ID)
	end := func(name, pin string) schematic.End {
		k, ok := b.Doc().Named(name)
		require.True(t, ok, name)
		return schematic.End{Part: k.ID, Pin: pin, Terminal: "ring"}
	}
	draw := func(more bool, ws ...schematic.Wire) error {
		return b.Do("list", func(tx *Tx) error { return AddWires(tx, ws, more) })
	}
	red := schematic.Color{Base: "RD"}
	require.NoError(t, draw(false,
		schematic.Wire{A: end("F1", "2"), B: end("E1", "1"), Color: red},
		schematic.Wire{Name: "W1", A: end("E1", "2"), B: end("GND1", "1"), Circuit: "lamp"},
		schematic.Wire{A: end("A1", "1"), B: schematic.End{Seal: "blue"}}))
	wire := func(name string) *schematic.Wire {
		k, _ := b.Doc().Named(name)
		return b.Doc().Wire(k.ID)
	}
	require.Equal(t, 3, b.Doc().Len(schematic.TypeWire))
	assert.Equal(t, red, wire("W2").Color, "W1 is asked for further down")
	assert.Equal(t, "ring", wire("W2").A.Terminal)
	assert.Equal(t, sheets[0].ID, wire("W1").Sheet)
	stud := b.Doc().Part(end("GND1", "1").Part)
	require.Len(t, stud.Views, 2, "a ground is shown where it is needed")
	assert.Equal(t, sheets[0].ID, stud.Views[1].Sheet)
	assert.Equal(t, sheets[1].ID, wire("W3").Sheet)
	assert.True(t, wire("W3").B.Loose())
	assert.Equal(t, "blue", wire("W3").B.Seal)
	assert.Len(t, b.Selection(), 3)

	// Of several symbols the nearest counts.
	require.NoError(t, b.Do("show", func(tx *Tx) error { return ShowPart(tx, stud.ID, sheets[0].ID, "", geom.Pt(3000, 1500), geom.Orient{}) }))
	place("lamp", 2900, 1000, sheets[0].ID)
	require.NoError(t, draw(false, schematic.Wire{Name: "far", A: end("E2", "2"), B: end("GND1", "1")}))
	assert.Equal(t, b.Doc().Part(stud.ID).Views[2].Key, wire("far").B.View)
	assert.Equal(t, b.Doc().Part(stud.ID).Views[1].Key, wire("W1").B.View)

	before := b.Doc()
	for _, c := range []struct {
		why, wrong string
		w          schematic.Wire
	}{
		{"two sheets", "no sheet shows both A1 and F1", schematic.Wire{A: end("A1", "2"), B: end("F1", "1")}},
		{"taken", "W1 is taken", schematic.Wire{Name: "W1", A: end("F1", "1"), B: schematic.End{}}},
		{"nowhere", "ends nowhere", schematic.Wire{}},
		{"no such pin", "no pin", schematic.Wire{A: end("F1", "9"), B: end("E1", "1"), Sheet: sheets[0].ID}},
		{"itself", "both ends", schematic.Wire{A: end("F1", "1"), B: end("F1", "1")}},
		{"length", "length", schematic.Wire{A: end("F1", "1"), B: schematic.End{}, LengthMM: schematic.Some(-1)}},
	} {
		require.ErrorContains(t, draw(false, schematic.Wire{A: end("F1", "1"), B: end("E1", "2")}, c.w), c.wrong, c.why)
		require.Same(t, before, b.Doc(), "all or nothing")
	}
	require.NoError(t, draw(true, schematic.Wire{A: end("A1", "2"), B: end("F1", "1")}, schematic.Wire{A: end("A1", "1"), B: end("F1", "2")}))
	assert.Len(t, b.Doc().Part(end("F1", "1").Part).Views, 2, "one more symbol serves both")
	assert.Len(t, b.Doc().Part(end("A1", "1").Part).Views, 1)
}
